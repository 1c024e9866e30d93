import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import type { Formula } from "../workbook/model.js";
import type { Book, Position } from "./book.js";
import type { CellFunctions } from "./cell-functions.js";
import { knownMistake } from "./known-mistakes.js";
import { datesSince1904, unknownFunction } from "./messages.js";
import { translate, type Translation } from "./translate.js";
import type { SheetArea } from "./values.js";
import type { WrittenReference } from "./written-reference.js";

/** What all cells share that hold the same formula, copied from one to the next. */
export interface Template {
  /** As seen from `base`, the first cell that has it. */
  readonly translation: Translation;
  readonly base: Position;
  /** Why it cannot be evaluated here; undefined when nothing stands in the way. */
  readonly obstacle: string | undefined;
  /** References whose cells it reads; edges without "$" as distances from the cell. */
  readonly reads: readonly WrittenReference[];
  /** Reads cells that only evaluation can tell, as INDIRECT and OFFSET do. */
  readonly wanders: boolean;
  /** Reads what another formula spills. */
  readonly followsSpill: boolean;
  /** Calls one of our own functions. */
  readonly own: boolean;
  /** May give another value each time. */
  readonly volatile: boolean;
  /** Leaves out hidden rows, or may. */
  readonly subtotals: boolean;
  /** Leaves ranges behind in the engine's memory that others must not see: reordered, or read before their time. */
  readonly leavesTraces: boolean;
}

/** What the engine can calculate. */
export interface Library {
  knows(name: string): boolean;
}

const names = (list: string): ReadonlySet<string> => new Set(list.split(/\s+/));

const wandering = names("INDIRECT OFFSET");
const volatileFunctions = names("NOW TODAY RAND RANDBETWEEN RANDARRAY OFFSET INDIRECT");
const sorting = names("SORT SORTBY");
const subtotalFunctions = names("SUBTOTAL AGGREGATE");
/** What these come to depends on the day from which dates count. */
const dateFunctions =
  names(`DATE DATEDIF DATEVALUE DAY DAYS DAYS360 EDATE EOMONTH ISOWEEKNUM MONTH NETWORKDAYS
  NETWORKDAYS.INTL NOW TEXT TODAY WEEKDAY WEEKNUM WORKDAY WORKDAY.INTL YEAR YEARFRAC`);
/** Ask where cells are, not what they hold. */
const askForPlace = names("ROW ROWS COLUMN COLUMNS AREAS");
/** Part of the language of formulas rather than of a library. */
const language = names("LET LAMBDA ANCHORARRAY SINGLE");

/** Reads each formula once, however many cells it was copied to. */
export class Templates {
  readonly #known = new Map<string, Template>();

  constructor(
    readonly book: Book,
    readonly functions: CellFunctions,
    readonly library: Library,
  ) {}

  of(formula: Formula, at: Position): Template {
    const translation = translate(formula.text, at, this.book, this.functions);
    const distant = translation.references.map((reference) => distances(reference, at));
    const key = [at.sheet, ...translation.tokens.map((token) => keyOf(token, distant))].join("\n");
    let template = this.#known.get(key);
    if (!template) this.#known.set(key, (template = this.#build(translation, distant, at)));
    return template;
  }

  #build(translation: Translation, references: readonly WrittenReference[], base: Position): Template {
    const { tokens, obstacle } = translation;
    const calls = tokens.filter((token) => token.type === tokenTypes.FUNCTION).map((token) => token.value);
    const unknown = calls.find(
      (name) => !this.functions.find(name) && !language.has(name) && !this.#isKnown(name, translation),
    );
    const dates = this.book.since1904 && calls.some((name) => dateFunctions.has(name));
    const reads = references.filter((_, index) => !namesOnly(tokens, index));
    return {
      translation,
      base,
      obstacle:
        obstacle ??
        (unknown === undefined ? undefined : unknownFunction(unknown)) ??
        (dates ? datesSince1904 : undefined) ??
        knownMistake(tokens),
      reads,
      wanders: calls.some((name) => wandering.has(name)),
      followsSpill: calls.includes("ANCHORARRAY") || tokens.some((token) => token.value === "#"),
      own: calls.some((name) => this.functions.claims(name)),
      volatile: calls.some((name) => volatileFunctions.has(name)),
      subtotals: calls.some((name) => subtotalFunctions.has(name)),
      leavesTraces:
        reads.length < references.length || calls.some((name) => sorting.has(name) || wandering.has(name)),
    };
  }

  /** A name that LET or LAMBDA declares may be called like a function. */
  #isKnown(name: string, { tokens }: Translation): boolean {
    return (
      this.library.knows(name) ||
      tokens.some((token) => token.type === tokenTypes.REF_NAMED && token.value === name)
    );
  }
}

/** The reference stands alone as the argument of a function that does not look into these cells. */
function namesOnly(tokens: readonly Token[], index: number): boolean {
  const place = tokens.findIndex(
    (token) => token.type === tokenTypes.REF_RANGE && Number(token.value) === index,
  );
  const [call, bracket] = [tokens[place - 2], tokens[place - 1]];
  if (call?.type !== tokenTypes.FUNCTION || bracket?.value !== "(") return false;
  return askForPlace.has(call.value) ? tokens[place + 1]?.value === ")" : call.value === "OFFSET";
}

/** The cells that a reference of a template means in one cell. */
export function placed(reference: WrittenReference, { row, column }: Position): SheetArea {
  return {
    sheet: reference.sheet,
    top: reference.topFixed ? reference.top : row + reference.top,
    left: reference.leftFixed ? reference.left : column + reference.left,
    bottom: reference.bottomFixed ? reference.bottom : row + reference.bottom,
    right: reference.rightFixed ? reference.right : column + reference.right,
  };
}

function distances(reference: WrittenReference, at: Position): WrittenReference {
  return {
    ...reference,
    top: reference.topFixed ? reference.top : reference.top - at.row,
    left: reference.leftFixed ? reference.left : reference.left - at.column,
    bottom: reference.bottomFixed ? reference.bottom : reference.bottom - at.row,
    right: reference.rightFixed ? reference.right : reference.right - at.column,
  };
}

function keyOf(token: Token, references: readonly WrittenReference[]): string {
  const reference = token.type === tokenTypes.REF_RANGE ? references[Number(token.value)] : undefined;
  if (!reference) return token.value;
  const { sheet, top, left, bottom, right, topFixed, leftFixed, bottomFixed, rightFixed } = reference;
  const fixed = Number(topFixed) + 2 * Number(leftFixed) + 4 * Number(bottomFixed) + 8 * Number(rightFixed);
  return `\t${sheet},${top},${left},${bottom},${right},${fixed}`;
}
