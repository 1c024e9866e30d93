import { main, type Book } from "./build-workbook.js";

/** A metadata part as Excel writes it for dynamic arrays. */
export function metadataXml(options: {
  /** Names of metadata types listed before that of dynamic arrays. */
  readonly typesBefore?: readonly string[];
  /** fDynamic of each entry of the future metadata. */
  readonly properties: readonly string[];
  /** Type number from 1 and entry from 0 of each cell metadata record. */
  readonly cells: readonly (readonly [type: number, entry: number])[];
}): string {
  const types = [...(options.typesBefore ?? []), "XLDAPR"].map(
    (name) => `<metadataType name="${name}" cellMeta="1"/>`,
  );
  const entries = options.properties.map(
    (fDynamic) =>
      '<bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}">' +
      `<xda:dynamicArrayProperties fDynamic="${fDynamic}" fCollapsed="0"/></ext></extLst></bk>`,
  );
  const records = options.cells.map(([type, entry]) => `<bk><rc t="${type}" v="${entry}"/></bk>`);
  return (
    `<metadata xmlns="${main}" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray">` +
    `<metadataTypes count="${types.length}">${types.join("")}</metadataTypes>` +
    `<futureMetadata name="XLDAPR" count="${entries.length}">${entries.join("")}</futureMetadata>` +
    `<cellMetadata count="${records.length}">${records.join("")}</cellMetadata></metadata>`
  );
}

/** A workbook's metadata part and what refers to it. */
export function withMetadata(xml: string): Omit<Book, "sheets"> {
  return {
    relations: [{ id: "m", kind: "sheetMetadata", target: "metadata.xml" }],
    overrides: {
      "xl/metadata.xml": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml",
    },
    parts: { "xl/metadata.xml": xml },
  };
}
