import type { Position } from "../../cells/place.js";
import type { Translation } from "./translation.js";
import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import { withoutPrefix } from "../../formulas/declared-names.js";
import { formulaTokens } from "../../formulas/tokens.js";
import type { Formula } from "../../workbook/model.js";
import type { Book } from "./book.js";
import type { CellFunctions } from "../ours/cell-functions.js";
import { onlyStartsFrom, spans, hasDynamicReferences } from "./dynamic-references.js";
import { relativeText } from "./relative-text.js";
import { isSpill } from "./surroundings.js";
import { intersected } from "./implicit-intersection.js";
import { knownMistake } from "./known-mistakes.js";
import { callAround } from "./calls-in-tokens.js";
import { datesSince1904, unknownFunction } from "../messages.js";
import { isNamedOnly } from "./named-only.js";
import { isTrusted, localeDependenceOf, type LocaleDependence } from "./trusted-functions.js";
import { translate } from "./translate.js";
import type { PositionedArea } from "../values.js";
import type { WrittenReference } from "./written-reference.js";

/** What all cells share that hold copies of the same formula. */
export interface Template {
  /** As seen from `base`, the first cell that has it. */
  readonly translation: Translation;
  readonly base: Position;
  /** Why it cannot be evaluated here; undefined if nothing prevents it. */
  readonly obstacle: string | undefined;
  /** References whose cells it reads; edges without "$" as distances from the cell. */
  readonly reads: readonly WrittenReference[];
  /** Reads cells that only evaluation can tell, as INDIRECT and OFFSET do. */
  readonly isDynamic: boolean;
  /** Has a range with computed ends, so that it may read anything between the cells it names. */
  readonly spans: boolean;
  /** Reads the spill of another formula. */
  readonly followsSpill: boolean;
  /** Calls one of our own functions. */
  readonly own: boolean;
  /** Depends on the time or on chance. */
  readonly volatile: boolean;
  /** Besides our calls, it does nothing that the engine is not trusted with. */
  readonly isTrusted: boolean;
  /** Does more than call ours. */
  readonly mixed: boolean;
  readonly localeDependence: LocaleDependence;
  /** Skips hidden rows, or may. */
  readonly subtotals: boolean;
  /** Leaves cached ranges in the interpreter that others must not see: reordered, or read too early. */
  readonly leavesTraces: boolean;
}

/** What the engine can calculate. */
export interface Library {
  knows(name: string): boolean;
}

const names = (list: string): ReadonlySet<string> => new Set(list.split(/\s+/));

const volatileFunctions = names("NOW TODAY RAND RANDBETWEEN RANDARRAY");
const sorting = names("SORT SORTBY");
const subtotalFunctions = names("SUBTOTAL AGGREGATE");
/** Their results depend on the date system, 1900 or 1904. */
const dateFunctions =
  names(`DATE DATEDIF DATEVALUE DAY DAYS DAYS360 EDATE EOMONTH ISOWEEKNUM MONTH NETWORKDAYS
  NETWORKDAYS.INTL NOW TEXT TODAY WEEKDAY WEEKNUM WORKDAY WORKDAY.INTL YEAR YEARFRAC`);
/** Part of the formula language rather than of a library. */
const language = names("LET LAMBDA ANCHORARRAY SINGLE");

/** Reads each formula once, however many cells it was copied to. */
export class Templates {
  readonly #known = new Map<string, Template>();
  /** By sheet and relative text, if that tells everything. */
  readonly #byText = new Map<string, Template>();

  constructor(
    readonly book: Book,
    readonly functions: CellFunctions,
    readonly library: Library,
  ) {}

  of(formula: Formula, at: Position): Template {
    const text = relativeText(formula.text, at);
    if (text === undefined) return this.#read(formula, at).template;
    const key = `${at.sheet}${formula.kind === "plain" ? "=" : "{"}${text}`;
    const known = this.#byText.get(key);
    if (known) return known;
    const { template, goesByPlace } = this.#read(formula, at);
    if (!goesByPlace) this.#byText.set(key, template);
    return template;
  }

  /** @returns whether the formula may mean something else in another cell, apart from relative references */
  #read(formula: Formula, at: Position): { readonly template: Template; readonly goesByPlace: boolean } {
    const whole = translate(formula.text, at, this.book, this.functions);
    const translation = formula.kind === "plain" ? intersected(whole, at) : whole;
    const distant = translation.references.map((reference) => distances(reference, at));
    const also = translation.alsoReads.map((reference) => distances(reference, at));
    const pieces = [...also.map(keyOfReference), ...translation.tokens.map((token) => keyOf(token, distant))];
    const key = [at.sheet, ...pieces].join("\n");
    let template = this.#known.get(key);
    if (!template) this.#known.set(key, (template = this.#build(translation, distant, also, at)));
    const isLevel =
      translation.references.length > whole.references.length ||
      translation.tokens.some((token, i) => token.value !== whole.tokens[i]?.value);
    return { template, goesByPlace: isLevel || this.#callsByPlace(formula.text, at) };
  }

  /** Whether it calls a LAMBDA by its defined name, or takes a single value from a range by implicit intersection. */
  #callsByPlace(text: string, { sheet }: Position): boolean {
    const names = formulaTokens(text).flatMap(({ type, value }) =>
      type === tokenTypes.FUNCTION ? [withoutPrefix(value)] : [],
    );
    return names.some((name) => name.toUpperCase() === "SINGLE" || this.book.definedName(name, sheet));
  }

  #build(
    translation: Translation,
    distant: readonly WrittenReference[],
    also: readonly WrittenReference[],
    base: Position,
  ): Template {
    const { tokens, obstacle } = translation;
    const calls = tokens.filter((token) => token.type === tokenTypes.FUNCTION).map((token) => token.value);
    const unknown = calls.find(
      (name) => !this.functions.find(name) && !language.has(name) && !this.#isKnown(name, translation),
    );
    const dates = this.book.since1904 && calls.some((name) => dateFunctions.has(name));
    const named = tokens.flatMap((token, place) => (token.type === tokenTypes.REF_RANGE ? [place] : []));
    const looked = named.filter((place) => !isNamedOnly(tokens, place) && !isStart(translation, place, base));
    const reads = [...new Set(looked.map((place) => Number(tokens[place]?.value)))].flatMap(
      (index) => distant[index] ?? [],
    );
    const isDynamicCall = hasDynamicReferences(translation, base);
    const isOurs = (name: string): boolean => this.functions.claims(name);
    // Few formulas are ever asked for these two.
    let dependence: LocaleDependence | undefined;
    return {
      translation,
      base,
      obstacle:
        obstacle ??
        (unknown === undefined ? undefined : unknownFunction(unknown)) ??
        (dates ? datesSince1904 : undefined) ??
        knownMistake(tokens),
      reads: [...reads, ...also],
      isDynamic: isDynamicCall,
      spans: spans(tokens),
      followsSpill: tokens.some(isSpill),
      own: calls.some(isOurs),
      volatile: calls.some((name) => volatileFunctions.has(name)),
      mixed:
        calls.some((name) => !isOurs(name)) ||
        tokens.some(({ type, value }) => type === tokenTypes.OPERATOR && "+-*/^%".includes(value)),
      get isTrusted() {
        return isTrusted(tokens, this.localeDependence, isOurs);
      },
      get localeDependence() {
        return (dependence ??= localeDependenceOf(tokens));
      },
      subtotals: calls.some((name) => subtotalFunctions.has(name)),
      leavesTraces: looked.length < named.length || isDynamicCall || calls.some((name) => sorting.has(name)),
    };
  }

  /** A name declared by LET or LAMBDA may be called like a function. */
  #isKnown(name: string, { tokens }: Translation): boolean {
    return (
      this.library.knows(name) ||
      tokens.some((token) => token.type === tokenTypes.REF_NAMED && token.value === name)
    );
  }
}

/** The reference at a place is only the starting point of a call. */
function isStart(translation: Translation, place: number, at: Position): boolean {
  const around = callAround(translation.tokens, place);
  if (around?.arg !== around?.call.args[0]) return false;
  return around !== undefined && onlyStartsFrom(translation, around.call.start, at);
}

/** The cells that a reference of a template means in one cell. */
export function placed(reference: WrittenReference, { row, column }: Position): PositionedArea {
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
  return reference ? keyOfReference(reference) : token.value;
}

function keyOfReference(reference: WrittenReference): string {
  const { sheet, top, left, bottom, right, topFixed, leftFixed, bottomFixed, rightFixed } = reference;
  const fixed = Number(topFixed) + 2 * Number(leftFixed) + 4 * Number(bottomFixed) + 8 * Number(rightFixed);
  return `\t${sheet},${top},${left},${bottom},${right},${fixed}`;
}
