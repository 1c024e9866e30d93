import { tokenize, tokenTypes, type Token } from "@borgar/fx/xlsx";

/** A token of a formula and its position in the text. */
export interface FormulaToken {
  readonly type: string;
  readonly value: string;
  readonly from: number;
}

/**
 * Tokens of a formula; joined together they give its text again.
 *
 * A reference into a closed workbook carries a path that the tokenizer cannot read, and brackets or commas in it would
 * count as the formula's own. Such a formula is tokenized again with letters in place of the path.
 */
export function formulaTokens(formula: string): FormulaToken[] {
  const tokens = tokenize(formula, { withLocation: false });
  const readable = tokens.some(({ type }) => type === tokenTypes.UNKNOWN)
    ? tokenize(withoutPaths(formula), { withLocation: false })
    : tokens;
  let from = 0;
  return readable.map(({ type, value }) => {
    const token = { type, value: formula.slice(from, from + value.length), from };
    from += value.length;
    return token;
  });
}

/** Keeps the length, so that positions stay valid. Texts are matched first so that they are skipped. */
function withoutPaths(formula: string): string {
  return formula.replace(/"(?:[^"]|"")*"|'(?:[^']|'')*'(?=!)/g, (text) =>
    text.startsWith('"') ? text : `'${"x".repeat(text.length - 2)}'`,
  );
}

const blank = new Set<string>([tokenTypes.WHITESPACE, tokenTypes.NEWLINE]);

export const isSignificant = ({ type }: Pick<Token, "type">): boolean => !blank.has(type);

export function isOperator(token: Pick<Token, "type" | "value"> | undefined, ...values: string[]): boolean {
  return token?.type === tokenTypes.OPERATOR && values.includes(token.value);
}
