import { tokenize, tokenTypes, type Token } from "@borgar/fx/xlsx";
import type { CellFunctions } from "../engine/cell-functions.js";
import { declaredNames } from "../formulas/declared-names.js";
import { boundFormula } from "../formulas/formula-text.js";
import { isOperator, isSolid } from "../formulas/tokens.js";
import { futureFunctions, worksheetFutureFunctions } from "./future-functions.js";

/** A formula that was typed here, as a file stores it so that Excel calculates the same. Without "=". */
export function storedText(typed: string, functions: CellFunctions): string {
  const tokens = tokenize(boundFormula(typed, functions));
  const locals = declaredNames(tokens);
  return tokens
    .map(({ type, value }) => {
      const upper = value.toUpperCase();
      if (type === tokenTypes.FUNCTION && worksheetFutureFunctions.has(upper)) return `_xlfn._xlws.${upper}`;
      if (type === tokenTypes.FUNCTION && futureFunctions.has(upper)) return `_xlfn.${upper}`;
      const isLocal = locals.has(value.toLowerCase());
      return isLocal && (type === tokenTypes.REF_NAMED || type === tokenTypes.FUNCTION)
        ? `_xlpm.${value}`
        : value;
    })
    .join("");
}

/** Of these, a range that is a whole argument means all its cells in every version of Excel. */
const takeRanges = new Set(
  `SUM AVERAGE MIN MAX COUNT COUNTA COUNTBLANK PRODUCT MEDIAN LARGE SMALL RANK VAR VAR.S VAR.P STDEV STDEV.S STDEV.P
  SLOPE INTERCEPT CORREL RSQ SUMSQ SUMPRODUCT ROWS COLUMNS`.split(/\s+/),
);
const several = new Set<string>([
  tokenTypes.REF_BEAM,
  tokenTypes.REF_TERNARY,
  tokenTypes.REF_STRUCT,
  tokenTypes.REF_NAMED,
]);

/**
 * Whether a formula must be stored as a dynamic array although it fills one cell: an ordinary formula would take of each
 * range only the cell that is level with it.
 */
export function needsArrays(typed: string): boolean {
  const tokens = tokenize(typed).filter(isSolid);
  const calls: (string | undefined)[] = [];
  return tokens.some((token, i) => {
    const before = tokens[i - 1];
    if (isOperator(token, "("))
      calls.push(before?.type === tokenTypes.FUNCTION ? before.value.toUpperCase() : undefined);
    else if (isOperator(token, ")")) calls.pop();
    else if (isOperator(token, "{", "#")) return true;
    else if (isSeveral(token)) {
      const isWhole = isOperator(before, "(", ",") && isOperator(tokens[i + 1], ")", ",");
      return !isWhole || !takeRanges.has(calls.at(-1) ?? "");
    }
    return false;
  });
}

function isSeveral({ type, value }: Token): boolean {
  return several.has(type) || (type === tokenTypes.REF_RANGE && value.includes(":"));
}
