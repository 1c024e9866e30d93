/** A number as people type it, with a decimal point or a decimal comma; undefined if it is none. */
export function numberOf(text: string): number | undefined {
  const plain = text.trim().replace(/^[−–]/, "-").replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : undefined;
}
