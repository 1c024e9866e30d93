/** The text that a formula writes in quotes. @param literal with its quotes */
export function literalText(literal: string): string {
  return literal.slice(1, -1).replaceAll('""', '"');
}

/** A text as a formula writes it. */
export function textLiteral(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}
