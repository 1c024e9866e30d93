/**
 * The text of a string literal.
 *
 * @param literal with its quotes
 */
export function literalText(literal: string): string {
  return literal.slice(1, -1).replaceAll('""', '"');
}

/** A text as a string literal. */
export function textLiteral(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}
