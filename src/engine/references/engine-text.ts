import type { Position } from "../../cells/place.js";
import { getNumfmtParseValueFilter } from "@univerjs/core";
import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import { literalText } from "../../formulas/text-literal.js";
import { countCells, inUse, type Surroundings, withoutSpills } from "./surroundings.js";
import type { Translation } from "./translation.js";
import { referenceText } from "./written-reference.js";

/**
 * A formula in Univer's syntax: our functions by their typed names, names and tables written out as cells, "A1#" as the
 * range it stands for, whole columns down to the last row in use.
 */
export function engineText(translation: Translation, at: Position, around: Surroundings): string {
  const { tokens, references } = withoutSpills(translation, at, around);
  return `=${tokens
    .map((token, i) => {
      const reference = token.type === tokenTypes.REF_RANGE ? references[Number(token.value)] : undefined;
      // What is left of it surrounds a call that finds one cell.
      if (!reference) return token.value === "SINGLE" ? "" : constant(token);
      const whole = countCells.has(tokens[i - 2]?.value ?? "");
      return referenceText(whole ? reference : inUse(reference, around), at, around.book);
    })
    .join("")}`;
}

/** Rewrites constants that Univer would misread. */
function constant({ type, value }: Token): string {
  if (type === tokenTypes.NUMBER) return plainNumber(value);
  // "1,046" would be the number 1046 and "2026-03-01" a date.
  const isText = type === tokenTypes.STRING && getNumfmtParseValueFilter(literalText(value))?.z !== undefined;
  return isText ? `(${value}&"")` : value;
}

/** In some places Univer takes a number with an exponent, or with a trailing zero after the point, for text. */
function plainNumber(number: string): string {
  const short = String(Number(number));
  if (!/e/i.test(number) && !short.includes("e")) return short;
  const [mantissa = "0", exponent = "0"] = (/e/i.test(number) ? number.toLowerCase() : short).split("e");
  return `(${String(Number(mantissa))}*10^${String(Number(exponent))})`;
}
