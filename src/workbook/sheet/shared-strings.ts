import type { PartSource } from "../package/package.js";
import { related } from "../package/relationships.js";
import { StringItem } from "../xml/string-item.js";
import { scanXml } from "../xml/xml-scan.js";

/**
 * The strings to which cells refer by number.
 *
 * @throws WorkbookError if their part is damaged
 */
export function readSharedStrings(source: PartSource, workbookPart: string): string[] {
  const part = related(source, workbookPart, "sharedStrings")[0]?.target;
  if (part === undefined) return [];
  const strings: string[] = [];
  const item = new StringItem();
  let depth = 0;
  scanXml(part, source.text(part), {
    open(tag) {
      depth++;
      if (depth > 2) item.open(tag); // below <sst> and <si>
    },
    text(data) {
      if (depth > 2) item.text(data);
    },
    close(name) {
      if (depth > 2) item.close();
      else if (depth === 2 && (name === "si" || name.endsWith(":si"))) strings.push(item.take());
      depth--;
    },
  });
  return strings;
}
