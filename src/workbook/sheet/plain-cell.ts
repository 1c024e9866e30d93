import { writeValue } from "./cell-write.js";
import type { CellValue } from "../model.js";

/** A cell with a formula as spreadsheet programs write it: nothing in it but its place, its looks, one formula, one value. */
const shape =
  /^<c( r="[A-Z]+\d+"(?: s="\d+")?)(?: t="(?:n|str|b|e)")?>(<f(?: t="shared"(?: ref="[A-Z\d:]+")? si="\d+")?(?:>[^<]*<\/f>|\/>))(?:<v(?: xml:space="preserve")?>[^<]*<\/v>|<v\/>)?<\/c>$/;

/**
 * The text of a cell that keeps its formula and gets another value. Most cells of most workbooks look like this, and need not be
 * taken apart.
 *
 * @param xml the element's text
 * @returns undefined for a cell of another shape
 */
export function plainCell(xml: string, value: CellValue): string | undefined {
  const [, place, formula] = shape.exec(xml) ?? [];
  if (place === undefined || formula === undefined) return undefined;
  const isNumber = xml.startsWith(' t="n"', 2 + place.length);
  const { type, body } = writeValue(value, true, "");
  const written = type ?? (isNumber ? "n" : undefined);
  return `<c${place}${written === undefined ? "" : ` t="${written}"`}>${formula}${body}</c>`;
}
