import { typeOf } from "./content-types.js";
import type { PartSource } from "./package.js";
import { readRelationships } from "./relationships.js";

/** Kinds of workbook, by the extension that programs expect. */
export const workbookKinds = ["xlsx", "xlsm", "xltx", "xltm"] as const;
export type WorkbookKind = (typeof workbookKinds)[number];

/** Endings of the content type of a workbook's own part. */
const endings: readonly (readonly [WorkbookKind, string])[] = [
  ["xlsx", "spreadsheetml.sheet.main+xml"],
  ["xlsm", "ms-excel.sheet.macroEnabled.main+xml"],
  ["xltx", "spreadsheetml.template.main+xml"],
  ["xltm", "ms-excel.template.macroEnabled.main+xml"],
];

/** Undefined for a type without an extension. */
export function workbookKind(source: PartSource, workbookPart: string): WorkbookKind | undefined {
  const type = typeOf(source, workbookPart)?.toLowerCase() ?? "";
  return endings.find(([, ending]) => type.endsWith(ending.toLowerCase()))?.[0];
}

/**
 * Whether the workbook is signed, so that any change invalidates the signature. Remains of a signature do not count.
 */
export function isSigned(source: PartSource): boolean {
  const signatures = (part: string, kind: string): readonly string[] =>
    readRelationships(source, part)
      .filter(
        ({ type, target }) =>
          type.endsWith(`/digital-signature/${kind}`) && source.find(target) !== undefined,
      )
      .map(({ target }) => target);
  return (
    signatures("", "origin").some((origin) => signatures(origin, "signature").length > 0) ||
    source.names().some((name) => /^_xmlsignatures\/[^/]+\.xml$/i.test(name))
  );
}
