import { tokenize, tokenTypes, type Token } from "@borgar/fx/xlsx";
import type { CellFunctions } from "../../engine/ours/cell-functions.js";
import { declaredNames } from "../../formulas/declared-names.js";
import { boundFormula } from "../../formulas/formula-text.js";
import { isOperator, isSignificant } from "../../formulas/tokens.js";
import { futureFunctions, worksheetFutureFunctions } from "./future-functions.js";

/** A typed formula as a file stores it, so that Excel calculates the same. Without "=". */
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

const names = (list: string): readonly string[] => list.trim().split(/\s+/);

/** Functions that aggregate ranges: each of their arguments may be one. */
const summing =
  names(`SUM AVERAGE MIN MAX COUNT COUNTA COUNTBLANK PRODUCT MEDIAN VAR VAR.S VAR.P STDEV STDEV.S STDEV.P SLOPE
  INTERCEPT CORREL RSQ SUMSQ SUMPRODUCT ROWS COLUMNS AND OR COUNTIFS SUMIFS AVERAGEIFS MINIFS MAXIFS`);

/** Functions with some arguments that may be ranges, by position. */
const taking: ReadonlyMap<string, (argument: number) => boolean> = new Map([
  ...summing.map((name) => [name, () => true] as const),
  ...names("INDEX LARGE SMALL COUNTIF PERCENTILE QUARTILE").map(
    (name) => [name, (at: number) => at === 0] as const,
  ),
  ...names("MATCH VLOOKUP HLOOKUP RANK").map((name) => [name, (at: number) => at === 1] as const),
  ...names("SUMIF AVERAGEIF").map((name) => [name, (at: number) => at !== 1] as const),
  ...names("LOOKUP XLOOKUP").map((name) => [name, (at: number) => at === 1 || at === 2] as const),
  ["SUBTOTAL", (at: number) => at > 0],
]);

/** Functions whose result has the shape of their arguments, so they aggregate nothing. */
const passing = new Set(
  names("IF IFERROR IFNA ROUND ROUNDUP ROUNDDOWN INT ABS TEXT VALUE LEN NOT ISNUMBER ISTEXT ISBLANK"),
);

const several = new Set<string>([
  tokenTypes.REF_BEAM,
  tokenTypes.REF_TERNARY,
  tokenTypes.REF_STRUCT,
  tokenTypes.REF_NAMED,
]);

interface Call {
  /** In capitals; undefined for a bracket without a function. */
  readonly name: string | undefined;
  /** Index of the first token of the call. */
  readonly from: number;
  argument: number;
  /** Whether it may return several values. */
  gives: boolean;
}

/**
 * Whether a formula that fills one cell must still be stored as a dynamic array, since it aggregates more than one
 * value on the way: in an ordinary formula each operator and each function of single values takes only one cell of a
 * range.
 */
export function needsArrays(typed: string, functions: CellFunctions): boolean {
  const tokens = tokenize(typed).filter(isSignificant);
  const calls: Call[] = [];
  /** Whether several values from these tokens reach a function that does not take ranges itself. */
  const isSummedUp = (from: number, to: number): boolean => {
    const [call] = calls.slice(-1);
    if (!call) return false;
    const isWhole = isOperator(tokens[from - 1], "(", ",") && isOperator(tokens[to + 1], ")", ",");
    const isOurs = call.name !== undefined && functions.find(call.name) !== undefined;
    if (isWhole && call.name !== undefined && taking.get(call.name)?.(call.argument)) return false;
    if (call.name !== undefined && !isOurs && !passing.has(call.name)) return true;
    if (
      !(isWhole && isOurs) &&
      calls.some(({ name }) => name !== undefined && !passing.has(name) && !functions.find(name))
    )
      return true;
    call.gives = true;
    return false;
  };
  return tokens.some((token, i) => {
    const before = tokens[i - 1];
    if (isOperator(token, "(")) {
      const isCall = before?.type === tokenTypes.FUNCTION;
      calls.push({
        name: isCall ? before.value.toUpperCase() : undefined,
        from: isCall ? i - 1 : i,
        argument: 0,
        gives: false,
      });
    } else if (isOperator(token, ",")) {
      const [call] = calls.slice(-1);
      if (call) call.argument++;
    } else if (isOperator(token, ")")) {
      const call = calls.pop();
      return call?.gives === true && isSummedUp(call.from, i);
    } else if (isOperator(token, "{", "#")) return true;
    else if (isSeveral(token)) return isSummedUp(i, i);
    return false;
  });
}

function isSeveral({ type, value }: Token): boolean {
  return several.has(type) || (type === tokenTypes.REF_RANGE && value.includes(":"));
}
