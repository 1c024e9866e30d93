import { tokenize, tokenTypes } from "@borgar/fx/xlsx";
import { withoutPrefix } from "./declared-names.js";
import type { SpelledFunctions, Spellings } from "./spelling.js";
import { isOperator } from "./tokens.js";

type Functions = SpelledFunctions<Spellings>;

const qualifying = new Set<string>([tokenTypes.CONTEXT, tokenTypes.CONTEXT_QUOTE]);

/** A formula with its functions spelled otherwise, and without the workbooks that are put before ours. */
function respelled<F extends Spellings>(
  text: string,
  functions: SpelledFunctions<F>,
  spell: (value: string, ours: F | undefined) => string,
): string {
  const tokens = tokenize(text);
  const isOurs = (i: number): boolean =>
    tokens[i]?.type === tokenTypes.FUNCTION && functions.find(tokens[i].value) !== undefined;
  return tokens
    .map(({ type, value }, i) => {
      if (type === tokenTypes.FUNCTION) return spell(value, functions.find(value));
      if (qualifying.has(type) && isOperator(tokens[i + 1], "!") && isOurs(i + 2)) return "";
      const qualified = tokens[i - 1];
      return isOperator(tokens[i], "!") && qualified && qualifying.has(qualified.type) && isOurs(i + 1)
        ? ""
        : value;
    })
    .join("");
}

/**
 * A formula as a user would type it: our functions under their own names, no prefixes of files, and none of the
 * workbooks that Excel can put before our functions once it has seen them without the add-in.
 */
export const typedFormula = (text: string, functions: Functions): string =>
  respelled(text, functions, (value, ours) => ours?.name ?? withoutPrefix(value));

/** A formula of a file so that the spreadsheet program finds our functions in it; all else is spelled as it was. */
export const boundFormula = (text: string, functions: Functions): string =>
  respelled(text, functions, (value, ours) => ours?.stored ?? value);

/** A formula as a file stores it, so that the spreadsheet program finds our functions in it. Without "=". */
export function storedFormula(text: string, functions: Functions): string {
  return tokenize(text)
    .map(({ type, value }) =>
      type === tokenTypes.FUNCTION ? (functions.find(value)?.stored ?? value) : value,
    )
    .join("");
}

/** Whether a formula calls a function of ours, or means to. */
export function callsOurs(text: string, functions: Functions): boolean {
  return tokenize(text).some(({ type, value }) => type === tokenTypes.FUNCTION && functions.claims(value));
}

/** The functions of ours that a formula calls, each as often as it does. */
export function calledFunctions<F extends Spellings>(text: string, functions: SpelledFunctions<F>): F[] {
  return tokenize(text).flatMap(({ type, value }) =>
    type === tokenTypes.FUNCTION ? (functions.find(value) ?? []) : [],
  );
}
