import { parseArea } from "../../cells/a1.js";
import type { Area } from "../../cells/area.js";
import { WorkbookError } from "../error.js";
import { unescapeString } from "../xml/escaped-string.js";
import type { Table } from "../model.js";
import type { PartSource } from "../package/package.js";
import { related } from "../package/relationships.js";
import type { SheetPart } from "../package/workbook-part.js";
import { attributeOf, childOf, childrenOf, parseXml, type XmlElement } from "../xml/xml-tree.js";

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
    const filter = filterOf(childOf(root, "autoFilter"));
    return {
      name: unescapeString(attributeOf(root, "displayName") ?? attributeOf(root, "name") ?? ""),
      sheet: sheet.name,
      area,
      headerRows: Number(attributeOf(root, "headerRowCount") ?? 1),
      totalsRows: Number(attributeOf(root, "totalsRowCount") ?? 0),
      columns: childrenOf(childOf(root, "tableColumns"), "tableColumn").map((column) =>
        unescapeString(attributeOf(column, "name") ?? ""),
      ),
      ...(filter && { filter }),
    };
  });
}

/** The cells of a filter that has something to choose by. */
function filterOf(filter: XmlElement | undefined): Area | undefined {
  if (childrenOf(filter, "filterColumn").length === 0) return undefined;
  return parseArea(attributeOf(filter, "ref") ?? "");
}
