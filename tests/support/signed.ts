import { relationshipsXml, zipParts, type Parts } from "./build-workbook.js";

const signature = "http://schemas.openxmlformats.org/package/2006/relationships/digital-signature";

/** A workbook that was signed; or of whose signature only the place is left. */
export function signed(parts: Parts, isWhole = true): Uint8Array {
  const root = parts["_rels/.rels"] as string;
  const origin = `<Relationship Id="rSig" Type="${signature}/origin" Target="_xmlsignatures/origin.sigs"/>`;
  return zipParts({
    ...parts,
    "_rels/.rels": root.replace("</Relationships>", `${origin}</Relationships>`),
    "_xmlsignatures/origin.sigs": "",
    ...(isWhole && {
      "_xmlsignatures/_rels/origin.sigs.rels": relationshipsXml({
        id: "r1",
        kind: `${signature}/signature`,
        target: "sig1.xml",
      }),
      "_xmlsignatures/sig1.xml": "<Signature/>",
    }),
  });
}
