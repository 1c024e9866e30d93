import { tokenize, tokenTypes } from "@borgar/fx/xlsx";
import { declaredNames } from "../../formulas/declared-names.js";
import { isOperator } from "../../formulas/tokens.js";

const references = new Set<string>([tokenTypes.REF_RANGE, tokenTypes.REF_BEAM, tokenTypes.REF_TERNARY]);

/**
 * A typed formula with the corrections that spreadsheet programs make: functions, cells, TRUE and FALSE in capitals,
 * names of LET and LAMBDA as spelled where they are declared, and missing closing brackets. Everything else stays as
 * typed.
 *
 * @param typed with "="
 */
export function spelledFormula(typed: string): string {
  const tokens = tokenize(typed, { withLocation: false });
  const locals = declaredNames(tokens);
  /** By name in lower case: Univer treats "x" and "X" as two names. */
  const spellings = new Map<string, string>();
  let open = 0;
  const spelled = tokens.map((token) => {
    const { type, value } = token;
    if (isOperator(token, "(")) open++;
    else if (isOperator(token, ")")) open--;
    if (references.has(type)) {
      const sheetEnd = value.lastIndexOf("!") + 1;
      return value.slice(0, sheetEnd) + value.slice(sheetEnd).toUpperCase();
    }
    const name = value.toLowerCase();
    if ((type === tokenTypes.REF_NAMED || type === tokenTypes.FUNCTION) && locals.has(name)) {
      if (!spellings.has(name)) spellings.set(name, value);
      return spellings.get(name);
    }
    return type === tokenTypes.FUNCTION || type === tokenTypes.BOOLEAN ? value.toUpperCase() : value;
  });
  return spelled.join("") + ")".repeat(Math.max(0, open));
}
