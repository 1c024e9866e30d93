import { tokenize, tokenTypes, type Token } from "@borgar/fx/xlsx";
import type { CellFunctions } from "./cell-functions.js";
import { withoutPrefix } from "./declared-names.js";

function rewritten(text: string, rewrite: (token: Token) => string): string {
  return tokenize(text)
    .map((token) => (token.type === tokenTypes.FUNCTION ? rewrite(token) : token.value))
    .join("");
}

/** A formula as a user would type it: our functions under their own names, no prefixes of files. Without "=". */
export function typedFormula(text: string, functions: CellFunctions): string {
  return rewritten(text, ({ value }) => functions.find(value)?.name ?? withoutPrefix(value));
}

/** A formula as a file stores it, so that the spreadsheet program finds our functions in it. Without "=". */
export function storedFormula(text: string, functions: CellFunctions): string {
  return rewritten(text, ({ value }) => functions.find(value)?.stored ?? value);
}

/** Whether a formula calls a function of ours, or means to. */
export function callsOurs(text: string, functions: CellFunctions): boolean {
  return tokenize(text).some(({ type, value }) => type === tokenTypes.FUNCTION && functions.claims(value));
}
