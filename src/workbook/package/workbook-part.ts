import { unescapeString } from "../xml/escaped-string.js";
import { WorkbookError } from "../error.js";
import type { DefinedName } from "../model.js";
import { isMain, isOfficeType } from "./names.js";
import type { PartSource } from "./package.js";
import { readRelationships, type Relationship } from "./relationships.js";
import { trimmed } from "../xml/string-item.js";
import { attributeOf, childOf, childrenOf, isTrue, parseXml, type XmlElement } from "../xml/xml-tree.js";

/** A worksheet and its part. */
export interface SheetPart {
  readonly name: string;
  readonly part: string;
  readonly hidden: boolean;
}

/** Content of the workbook's own part. */
export interface WorkbookPart {
  readonly part: string;
  readonly namespace: string;
  /** Without charts, dialogs and modules. */
  readonly sheets: readonly SheetPart[];
  readonly names: readonly DefinedName[];
  readonly iterates: boolean;
  /** Dates count from 1904 instead of 1900. */
  readonly since1904: boolean;
}

/**
 * Reads the list of sheets, the names and the calculation settings.
 *
 * @throws WorkbookError if the part is damaged or a sheet is missing
 */
export function readWorkbookPart(source: PartSource, part: string): WorkbookPart {
  const root = parseXml(part, source.text(part));
  if (root.local !== "workbook" || !isMain(root.namespace))
    throw new WorkbookError("is not an .xlsx workbook");
  const targets = new Map(
    readRelationships(source, part).map((relationship) => [relationship.id, relationship]),
  );
  const all = childrenOf(childOf(root, "sheets"), "sheet").map((sheet) => sheetPart(source, sheet, targets));
  return {
    part,
    namespace: root.namespace,
    sheets: all.flatMap(({ name, part, hidden }) => (part === undefined ? [] : [{ name, part, hidden }])),
    names: definedNames(root, all),
    iterates: isTrue(attributeOf(childOf(root, "calcPr"), "iterate")),
    since1904: isTrue(attributeOf(childOf(root, "workbookPr"), "date1904")),
  };
}

interface ListedSheet {
  readonly name: string;
  readonly part: string | undefined;
  readonly hidden: boolean;
}

function sheetPart(
  source: PartSource,
  sheet: XmlElement,
  targets: ReadonlyMap<string, Relationship>,
): ListedSheet {
  const name = unescapeString(attributeOf(sheet, "name") ?? "");
  const hidden = (attributeOf(sheet, "state") ?? "visible") !== "visible";
  const id = sheet.attributes.find((a) => a.name.endsWith(":id"))?.value ?? "";
  // As with modules of Excel 5.0: such a sheet has no part, and no cells.
  if (id === "") return { name, part: undefined, hidden };
  const target = targets.get(id);
  if (!target) throw new WorkbookError(`is damaged: the sheet "${name}" is missing`);
  if (!isOfficeType(target.type, "worksheet")) return { name, part: undefined, hidden };
  if (source.find(target.target) === undefined)
    throw new WorkbookError(`is damaged: the sheet "${name}" is missing`);
  return { name, part: target.target, hidden };
}

/** Names of formulas and areas, without Excel's internal ones and macros. */
function definedNames(root: XmlElement, sheets: readonly ListedSheet[]): DefinedName[] {
  const names: DefinedName[] = [];
  for (const element of childrenOf(childOf(root, "definedNames"), "definedName")) {
    const name = unescapeString(attributeOf(element, "name") ?? "");
    const macro = ["function", "vbProcedure", "xlm"].some((kind) => isTrue(attributeOf(element, kind)));
    if (macro || name.toLowerCase().startsWith("_xlnm.")) continue;
    const refersTo = unescapeString(trimmed(element.text));
    const local = attributeOf(element, "localSheetId");
    if (local === undefined) {
      names.push({ name, refersTo });
      continue;
    }
    const sheet = sheets[Number(local)];
    if (sheet?.part !== undefined) names.push({ name, refersTo, sheet: sheet.name });
  }
  return names;
}
