import type { Kind } from "../../instruments/schema.js";
import { CellError, type CellContent } from "./cell-value.js";
import {
  emptyBeside,
  neededBeside,
  notAChoice,
  notNumber,
  notText,
  passedOn,
  textNotNumber,
  zeroOrEmpty,
  zeroOrLeftOut,
} from "./messages.js";

/** Content of a cell that is not an error. */
export type Plain = Exclude<CellContent, CellError>;

/** Content of another argument's cell at the same place, by name. */
export type Beside = (name: string) => CellContent;

/** How one argument is presented to the user, and how its cells are read. */
export interface ArgumentSpec<T> {
  /** Its name in messages. */
  readonly label: string;
  /** Its description in the formula bar, with unit and range. */
  readonly description: string;
  readonly optional: boolean;
  /** Whether it names one of the workbook's instruments. */
  readonly namesInstrument?: true;
  /** The only kind of instrument that is accepted. */
  readonly instrumentKind?: Kind;
  /** The words that are accepted, if there are only a few. */
  readonly choices?: readonly string[];
  /** In a range where some cells hold a name, an empty cell is an error in its row; any default would be a guess. */
  readonly namedThroughout?: true;
  /** An empty cell makes the result blank. */
  readonly blanks?: true;
  /** Whether a 0 is a value. As a blank may arrive as 0, a 0 counts as empty unless this says otherwise. */
  readonly zeroIsValue?: (beside: Beside) => boolean;
  /** @throws CellError for content that cannot be read */
  readonly read: (content: Plain) => T;
}

interface Words {
  readonly label: string;
  readonly description: string;
}

/** Reads a cell of one argument. @throws CellError for content that cannot be read, and for a cell with an error */
export function readCell<T>({ label, read }: ArgumentSpec<T>, content: CellContent): T {
  if (content instanceof CellError) throw new CellError(content.code, passedOn(label));
  return read(content);
}

/** A number, or undefined if the cell is empty. @throws CellError for text and logical values */
export function readNumber(content: Plain, label: string, otherwise?: string): number | undefined {
  if (typeof content === "number" || content === undefined) return content;
  if (typeof content === "boolean") throw new CellError("#VALUE!", notNumber(label, content));
  throw new CellError("#VALUE!", textNotNumber(label, content, otherwise));
}

/** A measurement; without it there is nothing to calculate. */
export function measurement(words: Words & Pick<ArgumentSpec<number>, "zeroIsValue">): ArgumentSpec<number> {
  const { label, description, zeroIsValue } = words;
  return {
    label,
    description,
    optional: false,
    blanks: true,
    ...(zeroIsValue ? { zeroIsValue } : {}),
    read: (content) => readNumber(content, label) ?? 0,
  };
}

/**
 * A number that must accompany a measurement: empty is an error, never a default, and so is 0, because a blank may
 * arrive as 0.
 */
export function companion(
  words: Words & { readonly beside: string; readonly small: string; readonly really: string },
): ArgumentSpec<number> {
  const { label, description, beside, small, really } = words;
  return {
    label,
    description,
    optional: false,
    read: (content) => {
      const value = readNumber(content, label, neededBeside(beside));
      if (value === undefined) throw new CellError("#VALUE!", emptyBeside(label, beside));
      if (value === 0) throw new CellError("#VALUE!", zeroOrEmpty(label, beside, small, really));
      return value;
    },
  };
}

/**
 * Whether a 0 is a reading. As a blank may arrive as 0, only the time or temperature beside it tells; no SG scale reads
 * 0.
 */
export const readsZero = (scale: string, beside: CellContent): boolean =>
  scale !== "SG" && beside !== undefined && beside !== 0;

/** An optional number. As a blank may arrive as 0, a 0 counts as omitted too. */
export function optionalNumber({ label, description }: Words): ArgumentSpec<number | undefined> {
  return {
    label,
    description,
    optional: true,
    read: (content) => {
      const value = readNumber(content, label);
      return value === 0 ? undefined : value;
    },
  };
}

/**
 * An optional number for which a 0 would mean the very opposite of the default. Nobody can tell a 0 from an empty cell,
 * so a 0 is refused.
 */
export function optionalNotZero(
  words: Words & { readonly wayOut: string },
): ArgumentSpec<number | undefined> {
  const { label, description, wayOut } = words;
  return {
    label,
    description,
    optional: true,
    read: (content) => {
      const value = readNumber(content, label);
      if (value === 0) throw new CellError("#VALUE!", zeroOrLeftOut(label, wayOut));
      return value;
    },
  };
}

/** One of a few words, in any case. */
export function choice<T extends string>(words: Words & { readonly from: readonly T[] }): ArgumentSpec<T> {
  const { label, description, from } = words;
  return {
    label,
    description,
    optional: false,
    choices: from,
    read: (content) => {
      const given = content === undefined ? "" : String(content).trim();
      const found = from.find((word) => word.toLowerCase() === given.toLowerCase());
      if (found === undefined) throw new CellError("#VALUE!", notAChoice(label, given, from));
      return found;
    },
  };
}

/**
 * One of a few words, or a default if the argument is omitted. As a blank may arrive as 0, a 0 counts as omitted too.
 */
export function choiceOr<T extends string>(
  otherwise: NoInfer<T>,
  words: Words & { readonly from: readonly T[] },
): ArgumentSpec<T> {
  const given = choice(words);
  return {
    ...given,
    optional: true,
    read: (content) => (content === undefined || content === 0 ? otherwise : given.read(content)),
  };
}

/** One of a few units, or undefined if the argument is omitted. */
export function unitOrNone<T extends string>(
  words: Words & { readonly from: readonly T[] },
): ArgumentSpec<T | undefined> {
  const given = choice(words);
  return {
    ...given,
    optional: true,
    namedThroughout: true,
    read: (content) => (content === undefined || content === 0 ? undefined : given.read(content)),
  };
}

/** Like `unitOrNone`, but with a default. */
export function unitOr<T extends string>(
  otherwise: NoInfer<T>,
  words: Words & { readonly from: readonly T[] },
): ArgumentSpec<T> {
  return { ...choiceOr(otherwise, words), namedThroughout: true };
}

/** A name in free text; a number counts as the name it spells. */
export function readName(content: Plain, label: string): string | undefined {
  if (content === undefined || content === 0) return undefined;
  if (typeof content === "boolean") throw new CellError("#VALUE!", notText(label));
  return String(content);
}
