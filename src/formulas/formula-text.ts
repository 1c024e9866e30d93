import { tokenTypes } from "@borgar/fx/xlsx";
import { withoutPrefix } from "./declared-names.js";
import type { SpelledFunctions, Spellings } from "./spelling.js";
import { isOperator, formulaTokens, type FormulaToken } from "./tokens.js";

type Functions = SpelledFunctions<Spellings>;

const qualifying = new Set<string>([tokenTypes.CONTEXT, tokenTypes.CONTEXT_QUOTE]);

/**
 * Tokens of a formula, without the workbooks that Excel can put before our functions: "[2]!", "'C:\\…\\add-in.xlam'!".
 */
export function unqualified(text: string, functions: Functions): FormulaToken[] {
  const all = formulaTokens(text);
  const isOurs = (i: number): boolean =>
    all[i]?.type === tokenTypes.FUNCTION && functions.find(all[i].value) !== undefined;
  return all.filter((token, i) => {
    if (qualifying.has(token.type)) return !(isOperator(all[i + 1], "!") && isOurs(i + 2));
    const before = all[i - 1];
    return !(isOperator(token, "!") && before && qualifying.has(before.type) && isOurs(i + 1));
  });
}

/** A formula with the names of its functions replaced. */
function respelled<F extends Spellings>(
  text: string,
  functions: SpelledFunctions<F>,
  spell: (value: string, ours: F | undefined) => string,
): string {
  return unqualified(text, functions)
    .map(({ type, value }) => (type === tokenTypes.FUNCTION ? spell(value, functions.find(value)) : value))
    .join("");
}

/**
 * A formula as a user would type it: our functions under their own names, no file prefixes, no workbooks before ours.
 */
export const typedFormula = (text: string, functions: Functions): string =>
  respelled(text, functions, (value, ours) => ours?.name ?? withoutPrefix(value));

/**
 * A formula as a file stores it, so that the spreadsheet program finds our functions; everything else keeps its
 * spelling.
 */
export const boundFormula = (text: string, functions: Functions): string =>
  respelled(text, functions, (value, ours) => ours?.stored ?? value);

/** Whether a formula in a file is spelled so that the spreadsheet program finds our functions. */
export const isBound = (text: string, functions: Functions): boolean =>
  boundFormula(text, functions).toLowerCase() === text.toLowerCase();

/** Whether a formula calls one of our functions, or tries to. */
export function callsOurs(text: string, functions: Functions): boolean {
  // Most formulas do not mention our namespace, so they need not be tokenized.
  if (!text.toUpperCase().includes(functions.namespace.toUpperCase())) return false;
  return formulaTokens(text).some(
    ({ type, value }) => type === tokenTypes.FUNCTION && functions.claims(value),
  );
}

/** Our functions that a formula calls, one entry per call. */
export function calledFunctions<F extends Spellings>(text: string, functions: SpelledFunctions<F>): F[] {
  return formulaTokens(text).flatMap(({ type, value }) =>
    type === tokenTypes.FUNCTION ? (functions.find(value) ?? []) : [],
  );
}
