import { dateSerial } from "./iso-date.js";
import type { CellValue } from "./model.js";
import { trimmed } from "./string-item.js";
import { unescapeString } from "./escaped-string.js";

/** What values refer to outside their cell. */
export interface ValueContext {
  readonly strings: readonly string[];
  readonly since1904: boolean;
}

/**
 * Value of a cell from its type attribute and the text of its <v>.
 *
 * @param preserved whether white space at the ends of the text counts
 * @returns undefined when the text is no value of that type
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
      if (plain === "true" || plain === "false") return plain === "true";
      // LibreOffice writes "-0" where a truth was calculated with.
      return truth(decimal(plain));
    case "e":
      return { error: plain };
    case "d":
      return dateSerial(plain, context.since1904);
    default:
      return undefined;
  }
}

function truth(number: number | undefined): boolean | undefined {
  return number === undefined ? undefined : number !== 0;
}

/** Digits, sign, point and exponent only: Number would also read "0x10" and "Infinity". */
function decimal(text: string): number | undefined {
  return /^[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?$/.test(text) && Number.isFinite(Number(text))
    ? Number(text)
    : undefined;
}
