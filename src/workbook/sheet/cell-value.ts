import { dateSerial } from "./iso-date.js";
import type { CellValue } from "../model.js";
import { trimmed } from "../xml/string-item.js";
import { unescapeString } from "../xml/escaped-string.js";

/** What values refer to outside their cell. */
export interface ValueContext {
  readonly strings: readonly string[];
  readonly since1904: boolean;
}

/**
 * Value of a cell from its type attribute and the text of its <v>.
 *
 * @param preserved whether leading and trailing white space counts
 * @returns undefined if the text is not a value of that type
 */
export function storedValue(
  type: string,
  text: string,
  preserved: boolean,
  context: ValueContext,
): CellValue | undefined {
  if (type === "str" || type === "inlineStr") return unescapeString(preserved ? text : trimmed(text));
  const plain = trimmed(text);
  if (plain === "") return null;
  switch (type) {
    case "n":
      return decimal(plain);
    case "s":
      return context.strings[decimal(plain) ?? -1];
    case "b":
      if (plain === "1" || plain === "true") return true;
      // LibreOffice writes "-0" for a logical value that was calculated with.
      return ["0", "-0", "false"].includes(plain) ? false : undefined;
    case "e":
      return { error: plain };
    case "d":
      return dateSerial(plain, context.since1904);
    default:
      return undefined;
  }
}

/** Digits, sign, point and exponent only: Number would also read "0x10" and "Infinity". */
function decimal(text: string): number | undefined {
  return /^[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?$/.test(text) && Number.isFinite(Number(text))
    ? Number(text)
    : undefined;
}
