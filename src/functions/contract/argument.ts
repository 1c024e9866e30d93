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

/** A cell that is no error. */
export type Plain = Exclude<CellContent, CellError>;

/** The cell of another argument at the same place, by name. */
export type Beside = (name: string) => CellContent;

/** How one argument looks to the user, and how its cells are read. */
export interface ArgumentSpec<T> {
  /** As a message calls it. */
  readonly label: string;
  /** As the formula bar explains it, with unit and range. */
  readonly description: string;
  readonly optional: boolean;
  /** It is looked up among the workbook's instruments. */
  readonly namesInstrument?: true;
  /** Of such an argument: the only kind that serves. */
  readonly instrumentKind?: Kind;
  /** The words that it may be, where there are only a few. */
  readonly choices?: readonly string[];
  /** In a range of which some cells name one, an empty cell is an error in its row: what it stands for would be a guess. */
  readonly namedThroughout?: true;
  /** Where this cell is empty, so is the result. */
  readonly blanks?: true;
  /** Of such a cell: whether a 0 in it is a value. As a blank may arrive as 0, it is empty unless this says otherwise. */
  readonly zeroIsValue?: (beside: Beside) => boolean;
  /** @throws CellError for what cannot be read */
  readonly read: (content: Plain) => T;
}

interface Words {
  readonly label: string;
  readonly description: string;
}

/** A cell of an argument that is read by itself. @throws CellError for what cannot be read, and for a cell that is an error */
export function readCell<T>({ label, read }: ArgumentSpec<T>, content: CellContent): T {
  if (content instanceof CellError) throw new CellError(content.code, passedOn(label));
  return read(content);
}

/** A number, or undefined where the cell is empty. @throws CellError for text and truth values */
export function readNumber(content: Plain, label: string, otherwise?: string): number | undefined {
  if (typeof content === "number" || content === undefined) return content;
  if (typeof content === "boolean") throw new CellError("#VALUE!", notNumber(label, content));
  throw new CellError("#VALUE!", textNotNumber(label, content, otherwise));
}

/** A measurement without which there is nothing to calculate. */
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
 * A number that must stand beside a measurement: empty is an error, never an assumption, and 0 is one too, because a
 * blank may arrive as 0.
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
 * Whether a 0 was read. As a blank may arrive as 0, only the time or the temperature beside it tells it from an empty cell; no
 * scale of SG reads 0.
 */
export const readsZero = (scale: string, beside: CellContent): boolean =>
  scale !== "SG" && beside !== undefined && beside !== 0;

/** A number that may be left out. As a blank may arrive as 0, a 0 is left out too. */
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
 * A number that may be left out, where a 0 would mean the very opposite of what stands for an empty cell. Which of the two it
 * is nobody can tell, so a 0 is refused.
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

/** One of a few words, in any letter case. */
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

/** One of a few words, or the usual one if the argument is left out. As a blank may arrive as 0, so may that. */
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

/** One of a few units that make a number another amount, or undefined if the argument is left out. */
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

/** The same, with the usual unit if the argument is left out. */
export function unitOr<T extends string>(
  otherwise: NoInfer<T>,
  words: Words & { readonly from: readonly T[] },
): ArgumentSpec<T> {
  return { ...choiceOr(otherwise, words), namedThroughout: true };
}

/** A name in free text; a number is taken as the name it spells. */
export function readName(content: Plain, label: string): string | undefined {
  if (content === undefined || content === 0) return undefined;
  if (typeof content === "boolean") throw new CellError("#VALUE!", notText(label));
  return String(content);
}
