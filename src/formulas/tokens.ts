import { tokenize, tokenTypes, type Token } from "@borgar/fx/xlsx";

/** A token of a formula and its position in the text. */
export interface Piece {
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
export function pieces(formula: string): Piece[] {
  const tokens = tokenize(formula, { withLocation: false });
  const readable = tokens.some(({ type }) => type === tokenTypes.UNKNOWN)
    ? tokenize(withoutPaths(formula), { withLocation: false })
    : tokens;
  let from = 0;
  return readable.map(({ type, value }) => {
    const piece = { type, value: formula.slice(from, from + value.length), from };
    from += value.length;
    return piece;
  });
}

/** Keeps the length, so that positions stay valid. Texts are matched first so that they are skipped. */
function withoutPaths(formula: string): string {
  return formula.replace(/"(?:[^"]|"")*"|'(?:[^']|'')*'(?=!)/g, (text) =>
    text.startsWith('"') ? text : `'${"x".repeat(text.length - 2)}'`,
  );
}

const blank = new Set<string>([tokenTypes.WHITESPACE, tokenTypes.NEWLINE]);

export const isSolid = ({ type }: Pick<Token, "type">): boolean => !blank.has(type);

export function isOperator(piece: Pick<Token, "type" | "value"> | undefined, ...values: string[]): boolean {
  return piece?.type === tokenTypes.OPERATOR && values.includes(piece.value);
}
