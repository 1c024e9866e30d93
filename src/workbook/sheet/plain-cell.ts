import { writeValue } from "./cell-write.js";
import type { CellValue } from "../model.js";

/** A cell with a formula in its usual form: a place, a style, one formula, one value and nothing else. */
const shape =
  /^<c( r="[A-Z]+\d+"(?: s="\d+")?)(?: t="(?:n|str|b|e)")?>(<f(?: t="shared"(?: ref="[A-Z\d:]+")? si="\d+")?(?:>[^<]*<\/f>|\/>))(?:<v(?: xml:space="preserve")?>[^<]*<\/v>|<v\/>)?<\/c>$/;

/**
 * The text of a cell that keeps its formula and gets another value. Most cells of most workbooks look like this and
 * need not be parsed.
 *
 * @param xml the element's text
 * @returns undefined for a cell of any other form
 */
export function plainCell(xml: string, value: CellValue): string | undefined {
  const [, place, formula] = shape.exec(xml) ?? [];
  if (place === undefined || formula === undefined) return undefined;
  const isNumber = xml.startsWith(' t="n"', 2 + place.length);
  const { type, body } = writeValue(value, true, "");
  const written = type ?? (isNumber ? "n" : undefined);
  return `<c${place}${written === undefined ? "" : ` t="${written}"`}>${formula}${body}</c>`;
}
