import type { LocaleConventions } from "./locale-conventions.js";

/** A typed number, and the number format that shows it as typed; undefined for the default format. */
export interface TypedNumber {
  readonly value: number;
  readonly format?: string;
}

/** A sheet stores fifteen digits of a number. */
const MOST_DIGITS = 15;

/**
 * Reads a number as Excel does: 1.050, -5, (5), 1e3, 5%, $5, 1,000, 2 1/2, with the locale's decimal and thousands
 * separators.
 *
 * @returns undefined for ambiguous text, and if digits would be lost
 */
export function typedNumber(text: string, conventions: LocaleConventions): TypedNumber | undefined {
  const bracketed = /^\((.+)\)$/.exec(text)?.[1];
  if (bracketed !== undefined)
    return /^[-+(]/.test(bracketed) ? undefined : negative(typedNumber(bracketed, conventions));
  const signed = /^([-+−])(?=[\d.,$£€])(.+)$/.exec(text);
  if (signed) {
    const number = unsigned(signed[2] ?? "", conventions);
    return signed[1] === "+" ? number : negative(number);
  }
  return unsigned(text, conventions);
}

const negative = (number: TypedNumber | undefined): TypedNumber | undefined =>
  number && { ...number, value: 0 - number.value };

function unsigned(text: string, conventions: LocaleConventions): TypedNumber | undefined {
  const percent = /^(.+?)\s?%$/.exec(text)?.[1];
  if (percent !== undefined) {
    const number = digits(percent, conventions);
    // By division; as a product, 5.5 % would not always be the number nearest to 0.055.
    if (!number || number.isScientific) return undefined;
    return { value: Number(`${number.plain}e-2`), format: number.isWhole ? "0%" : "0.00%" };
  }
  const symbol = /^[$£€]/.exec(text)?.[0] ?? /€$/.exec(text)?.[0];
  if (symbol !== undefined) {
    const number = digits(text.replace(symbol, "").trim(), conventions);
    const format = `"${symbol}"${number?.isWhole ? "#,##0" : "#,##0.00"}`;
    return number && { value: Number(number.plain), format };
  }
  const mixed = /^(\d{1,10}) (\d{1,5})\/(\d{1,5})$/.exec(text);
  if (mixed) {
    const [whole = 0, upper = 0, lower = 0] = mixed.slice(1).map(Number);
    return lower > 0 ? { value: whole + upper / lower, format: lower > 9 ? "# ??/??" : "# ?/?" } : undefined;
  }
  const number = digits(text, conventions);
  if (!number) return undefined;
  const format = number.isScientific
    ? "0.00E+00"
    : number.isGrouped
      ? number.isWhole
        ? "#,##0"
        : "#,##0.00"
      : undefined;
  return { value: Number(number.plain), ...(format === undefined ? {} : { format }) };
}

interface Digits {
  /** In the notation of programs. */
  readonly plain: string;
  readonly isWhole: boolean;
  readonly isGrouped: boolean;
  readonly isScientific: boolean;
}

function digits(text: string, { decimal, groups, groupsInPairs }: LocaleConventions): Digits | undefined {
  const found = /^([\d.,'’ \u00a0\u202f]+?)(e[-+]?\d{1,3})?$/i.exec(text);
  if (!found) return undefined;
  const [, mantissa = "", exponent = ""] = found;
  const pointed = /^(\d+)(?:\.(\d*))?$|^()\.(\d+)$/.exec(mantissa);
  const comma = decimal === "," ? /^(\d+)(?:,(\d*))?$|^(),(\d+)$/.exec(mantissa) : null;
  const simple = pointed ?? comma;
  const grouped = simple ? undefined : ungrouped(mantissa, decimal, groups, groupsInPairs);
  const whole = simple ? (simple[1] ?? "") : grouped?.[0];
  if (whole === undefined) return undefined;
  const fraction = simple ? (simple[2] ?? simple[4] ?? "") : (grouped?.[1] ?? "");
  // A longer number is not a quantity but an identifier, of which no digit may be lost.
  if (whole.replace(/^0+/, "").length > MOST_DIGITS) return undefined;
  const plain = `${whole || "0"}.${fraction || "0"}${exponent}`;
  if (!Number.isFinite(Number(plain))) return undefined;
  return { plain, isWhole: fraction === "", isGrouped: grouped !== undefined, isScientific: exponent !== "" };
}

/** Integer part and decimals of a number with thousands separators, if they are all in place. */
function ungrouped(
  text: string,
  decimal: string,
  groups: readonly string[],
  inPairs: boolean,
): [string, string] | undefined {
  const at = text.lastIndexOf(decimal);
  const isGroup = groups.includes(decimal);
  const [whole, fraction] = at < 0 || isGroup ? [text, ""] : [text.slice(0, at), text.slice(at + 1)];
  if (!/^\d*$/.test(fraction)) return undefined;
  const used = groups.find((sign) => sign !== "" && whole.includes(sign));
  if (used === undefined) return undefined;
  const pieces = whole.split(used);
  const fits = (above: number): boolean =>
    pieces.every((piece, i) => {
      const size = i === pieces.length - 1 ? 3 : above;
      return (
        /^\d+$/.test(piece) &&
        (i === 0 ? piece.length <= size && !piece.startsWith("0") : piece.length === size)
      );
    });
  return fits(3) || (inPairs && fits(2)) ? [pieces.join(""), fraction] : undefined;
}
