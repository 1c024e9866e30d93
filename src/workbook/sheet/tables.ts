import { parseArea } from "../../cells/a1.js";
import { WorkbookError } from "../error.js";
import { unescapeString } from "../xml/escaped-string.js";
import type { Table } from "../model.js";
import type { PartSource } from "../package/package.js";
import { related } from "../package/relationships.js";
import type { SheetPart } from "../package/workbook-part.js";
import { attributeOf, childOf, childrenOf, parseXml } from "../xml/xml-tree.js";

/**
 * Tables of a sheet.
 *
 * @throws WorkbookError if one of their parts is damaged
 */
export function readTables(source: PartSource, sheet: SheetPart): Table[] {
  return related(source, sheet.part, "table").map(({ target }) => {
    const root = parseXml(target, source.text(target));
    const area = parseArea(attributeOf(root, "ref") ?? "");
    if (!area) throw new WorkbookError(`is damaged: ${target} says no area`);
    return {
      name: unescapeString(attributeOf(root, "displayName") ?? attributeOf(root, "name") ?? ""),
      sheet: sheet.name,
      area,
      headerRows: Number(attributeOf(root, "headerRowCount") ?? 1),
      totalsRows: Number(attributeOf(root, "totalsRowCount") ?? 0),
      columns: childrenOf(childOf(root, "tableColumns"), "tableColumn").map((column) =>
        unescapeString(attributeOf(column, "name") ?? ""),
      ),
    };
  });
}
