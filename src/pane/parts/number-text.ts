/** A number with so many decimals. */
export const fixed = (value: number, decimals: number): string =>
  // A rounded nothing has no sign.
  value
    .toFixed(decimals)
    .replace(/^-(?=[0.]*$)/, "")
    .replace("-", "−");

/** The same for something that is added or left over: it always has a sign. */
export const signed = (value: number, decimals: number): string =>
  fixed(value, decimals).replace(/^(?=\d)/, "+");

/** A number as people type it, with a decimal point or a decimal comma; undefined if it is none. */
export function numberOf(text: string): number | undefined {
  const plain = text.trim().replace(/^[−–]/, "-").replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : undefined;
}
