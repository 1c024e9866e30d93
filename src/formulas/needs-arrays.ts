import { tokenize, tokenTypes, type Token } from "@borgar/fx/xlsx";
import type { SpelledFunctions, Spellings } from "./spelling.js";
import { isOperator, isSignificant } from "./tokens.js";

const names = (list: string): readonly string[] => list.trim().split(/\s+/);

/** Functions that sum up ranges: every argument of them may be one. */
const summing =
  names(`SUM AVERAGE MIN MAX COUNT COUNTA COUNTBLANK PRODUCT MEDIAN VAR VAR.S VAR.P STDEV STDEV.S STDEV.P SLOPE
  INTERCEPT CORREL RSQ SUMSQ SUMPRODUCT ROWS COLUMNS AND OR COUNTIFS SUMIFS AVERAGEIFS MINIFS MAXIFS`);

/** Functions of whose arguments some may be ranges, by their place. */
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

/** Whatever these are given has the size of what they give: nothing is summed up in them. */
const passing = new Set(
  names("IF IFERROR IFNA ROUND ROUNDUP ROUNDDOWN INT ABS TEXT VALUE LEN NOT ISNUMBER ISTEXT ISBLANK"),
);

/** They give several values without being given any. */
const making = new Set(names("MAKEARRAY MUNIT RANDARRAY SEQUENCE TEXTSPLIT"));

const several = new Set<string>([
  tokenTypes.REF_BEAM,
  tokenTypes.REF_TERNARY,
  tokenTypes.REF_STRUCT,
  tokenTypes.REF_NAMED,
]);

interface Call {
  /** In capitals; undefined for a bracket without a function. */
  readonly name: string | undefined;
  /** Where the call begins among the pieces. */
  readonly from: number;
  argument: number;
  /** It may give several values. */
  gives: boolean;
}

/**
 * Whether a formula that fills one cell must be stored as a dynamic array all the same, since it sums up more than one value on
 * the way: of an ordinary formula each operator and each function for single values takes only one cell of a range.
 */
export function needsArrays(typed: string, functions: SpelledFunctions<Spellings>): boolean {
  return arrayUse(typed, functions) === "within";
}

/**
 * What a formula does with several values, apart from those that our functions take: nothing, give them as its result, or sum them
 * up on the way.
 */
export function arrayUse(
  typed: string,
  functions: SpelledFunctions<Spellings>,
): "none" | "result" | "within" {
  const found = { isResult: false };
  const tokens = tokenize(typed).filter(isSignificant);
  const calls: Call[] = [];
  /** Whether several values at these pieces come into a function that does not take them as they are. */
  const isSummedUp = (from: number, to: number): boolean => {
    const [call] = calls.slice(-1);
    const isWhole = isOperator(tokens[from - 1], "(", ",") && isOperator(tokens[to + 1], ")", ",");
    const isOurs = call?.name !== undefined && functions.find(call.name) !== undefined;
    if (isWhole && call?.name !== undefined && taking.get(call.name)?.(call.argument)) return false;
    const isInOurs = calls.some(({ name }) => name !== undefined && functions.find(name));
    if (!isInOurs && from === to) found.isResult = true;
    if (!call) return false;
    if (call.name !== undefined && !isOurs && !passing.has(call.name)) return true;
    if (
      !(isWhole && isOurs) &&
      calls.some(({ name }) => name !== undefined && !passing.has(name) && !functions.find(name))
    )
      return true;
    call.gives = true;
    return false;
  };
  const isWithin = tokens.some((token, i) => {
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
    } else if (isOperator(token, "{", "#") || isMaking(token)) return true;
    else if (isSeveral(token)) return isSummedUp(i, i);
    return false;
  });
  return isWithin ? "within" : found.isResult ? "result" : "none";
}

const isMaking = ({ type, value }: Token): boolean =>
  type === tokenTypes.FUNCTION && making.has(value.toUpperCase());

function isSeveral({ type, value }: Token): boolean {
  return several.has(type) || (type === tokenTypes.REF_RANGE && value.includes(":"));
}
