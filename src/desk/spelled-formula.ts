import { tokenize, tokenTypes } from "@borgar/fx/xlsx";
import { declaredNames } from "../formulas/declared-names.js";
import { isOperator } from "../formulas/tokens.js";

const references = new Set<string>([tokenTypes.REF_RANGE, tokenTypes.REF_BEAM, tokenTypes.REF_TERNARY]);

/**
 * A formula that was typed, with what spreadsheet programs put right in one: functions, cells, TRUE and FALSE in capitals, and
 * brackets closed that were left open. All else stays as it was typed.
 *
 * @param typed with "="
 */
export function spelledFormula(typed: string): string {
  const tokens = tokenize(typed, { withLocation: false });
  const locals = declaredNames(tokens);
  let open = 0;
  const spelled = tokens.map((token) => {
    const { type, value } = token;
    if (isOperator(token, "(")) open++;
    else if (isOperator(token, ")")) open--;
    if (references.has(type)) {
      const sheetEnd = value.lastIndexOf("!") + 1;
      return value.slice(0, sheetEnd) + value.slice(sheetEnd).toUpperCase();
    }
    const isName = type === tokenTypes.FUNCTION && !locals.has(value.toLowerCase());
    return isName || type === tokenTypes.BOOLEAN ? value.toUpperCase() : value;
  });
  return spelled.join("") + ")".repeat(Math.max(0, open));
}
