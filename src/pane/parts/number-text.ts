/** A number with this many decimals. */
export const fixed = (value: number, decimals: number): string =>
  // A value rounded to zero has no sign.
  value
    .toFixed(decimals)
    .replace(/^-(?=[0.]*$)/, "")
    .replace("-", "−");

/** The same with a sign, for corrections and residuals. */
export const signed = (value: number, decimals: number): string =>
  fixed(value, decimals).replace(/^(?=\d)/, "+");

/** A number as people type it, with a decimal point or a decimal comma; undefined if it is not a number. */
export function numberOf(text: string): number | undefined {
  const plain = text.trim().replace(/^[−–]/, "-").replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : undefined;
}
