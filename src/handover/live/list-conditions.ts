import type { InputCondition, Expression } from "../fit/expression.js";

// Conditions on lists of cells. Empty lines are skipped; anything but a number gives no answer.

/** No line holds text, and all numbers are in a range. */
export function amountsAreNumbers(
  list: Expression,
  { min, max }: { readonly min: number; readonly max: number },
): InputCondition {
  return {
    write: (inputs, places) => {
      const text = list.write(inputs, places);
      const outside = [`(${text}<${min})`, ...(max === Infinity ? [] : [`(${text}>${max})`])].join("+");
      return `SUMPRODUCT((TRIM(${text})<>"")*(1-ISNUMBER(${text}))+ISNUMBER(${text})*(${outside}))=0`;
    },
    holds: (inputs) => list.at(inputs) >= min && list.at(inputs) <= max,
  };
}

/**
 * A condition holds in every line that counts: those whose amount is a number other than 0.
 *
 * @param needed must also be a number in such a line
 */
export function linesWithin(
  amounts: Expression,
  condition: InputCondition,
  needed: Expression,
): InputCondition {
  return {
    write: (inputs, places) => {
      const text = amounts.write(inputs, places);
      const holds = `ISNUMBER(${needed.write(inputs, places)})*(${condition.write(inputs, places)})`;
      return `SUMPRODUCT((${text}<>0)*ISNUMBER(${text})*(1-${holds}))=0`;
    },
    holds: condition.holds,
  };
}
