import { lastColumn, lastRow } from "../../cells/limits.js";
import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import type { Position } from "../../cells/place.js";
import {
  bare,
  type CallInTokens,
  callAt,
  groupBefore,
  isOperatorToken,
  neighbour,
} from "./calls-in-tokens.js";
import { type Surroundings, withoutSpills } from "./surroundings.js";
import { withoutAt } from "./implicit-intersection.js";
import { knownMistake } from "./known-mistakes.js";
import { placesUnsure } from "../messages.js";
import { isNamedOnly } from "./named-only.js";
import { textReference } from "./text-reference.js";
import type { Translation } from "./translation.js";
import {
  FormulaError,
  formulaErrors,
  Values,
  type FormulaValue,
  type Scalar,
  type PositionedArea,
} from "../values.js";
import type { WrittenReference } from "./written-reference.js";

/** A formula with dynamic references, written out as the cells that they mean now. */
export interface FoundCells {
  readonly translation: Translation;
  /** Everything that it reads through dynamic references. */
  readonly reads: readonly PositionedArea[];
  /** Why it still cannot be evaluated here. */
  readonly withheld: string | undefined;
  /** It is withheld because not even the cells that it reads are known. */
  readonly isUnknown: boolean;
}

const dynamic = new Set(["INDIRECT", "OFFSET"]);

/**
 * Whether a formula has dynamic references. INDEX is one if its result is the end of a range, or if the range it picks
 * from includes the formula itself, which is no circular reference as long as another cell is picked.
 */
export function hasDynamicReferences({ tokens, references }: Translation, at: Position): boolean {
  return tokens.some(
    ({ type, value }, i) =>
      type === tokenTypes.FUNCTION &&
      (dynamic.has(value) || (value === "INDEX" && isFound(tokens, references, i, at))),
  );
}

/** Whether a range ends at the result of another function, so that it may read anything between the cells it names. */
export function spans(tokens: readonly Token[]): boolean {
  const isKnown = ({ type, value }: Token): boolean =>
    type === tokenTypes.REF_RANGE || dynamic.has(value) || value === "INDEX";
  return tokens.some((token, i) => {
    if (!isOperatorToken(token, ":")) return false;
    const before = isOperatorToken(tokens[i - 1], ")") ? groupBefore(tokens, i)[0] : tokens[i - 1];
    return ![before, tokens[i + 1]].every((end) => end !== undefined && isKnown(end));
  });
}

/** Whether the reference at a place is only the starting point of a call, so that its cells are not read. */
export function onlyStartsFrom({ tokens, references }: Translation, place: number, at: Position): boolean {
  const name = tokens[place]?.value;
  return name === "OFFSET" || (name === "INDEX" && isFound(tokens, references, place, at));
}

function isFound(
  tokens: readonly Token[],
  references: readonly WrittenReference[],
  place: number,
  at: Position,
): boolean {
  const call = callAt(tokens, place);
  const from = call && loneReference(tokens, call.args[0], references);
  if (!from) return false;
  const { sheet, top, bottom, left, right } = from;
  const holdsItself =
    sheet === at.sheet && top <= at.row && bottom >= at.row && left <= at.column && right >= at.column;
  const before = neighbour(tokens, place, -1);
  const around = tokens[place - 2]?.value ?? "";
  const isAsked = before?.value === "(" && ["SINGLE", "OFFSET"].includes(around);
  const isEnd = isOperatorToken(before, ":") || isOperatorToken(neighbour(tokens, call.end - 1, 1), ":");
  return holdsItself || isAsked || isEnd;
}

/**
 * Finds the cells that a formula refers to now. The engine evaluates the arguments; which cells follow from them is
 * worked out here, by Excel's help on INDIRECT, OFFSET and INDEX.
 *
 * @param translation as seen from the cell
 */
export function findCells(
  translation: Translation,
  at: Position,
  around: Surroundings,
  evaluate: (part: Translation) => FormulaValue,
): FoundCells {
  const { references: given, tokens: written } = withoutSpills(translation, at, around);
  const tokens = [...written];
  const references = [...given];
  const reads: PositionedArea[] = [];
  let withheld: string | undefined;
  let isUnknown = false;
  // Backwards, so that inner calls come first.
  for (let i = tokens.length - 1; i >= 0; i--) {
    const call = callAt(tokens, i);
    if (!call || !(dynamic.has(call.name) || (call.name === "INDEX" && isFound(tokens, references, i, at))))
      continue;
    const cells = cellsOf(call);
    if (cells instanceof FormulaError)
      tokens.splice(i, call.end - i, { type: tokenTypes.ERROR, value: cells.error });
    else if (cells && "several" in cells) {
      reads.push(...cells.several);
      withheld ??= placesUnsure(call.name);
    } else if (cells) {
      references.push(fixed(cells));
      tokens.splice(i, call.end - i, { type: tokenTypes.REF_RANGE, value: String(references.length - 1) });
    } else if (dynamic.has(call.name) || tokens[i - 2]?.value === "SINGLE") {
      withheld ??= placesUnsure(call.name);
      isUnknown ||= dynamic.has(call.name);
    }
  }
  joinEnds(tokens, references);
  const found = withoutAt({ ...translation, tokens, references }, at);
  for (const [i, { type, value }] of found.tokens.entries()) {
    const reference = type === tokenTypes.REF_RANGE ? found.references[Number(value)] : undefined;
    if (reference && Number(value) >= given.length && !isNamedOnly(found.tokens, i)) reads.push(reference);
  }
  withheld ??= found.obstacle ?? knownMistake(found.tokens);
  return { translation: found, reads, withheld, isUnknown };

  /** The cells of a call, an error, the ranges that arrays ask for, or undefined if they are not known. */
  function cellsOf(
    call: CallInTokens,
  ): PositionedArea | FormulaError | { readonly several: readonly PositionedArea[] } | undefined {
    if (
      call.args.some((arg) =>
        tokens.slice(arg.start, arg.end).some(({ type }) => type === tokenTypes.REF_NAMED),
      )
    )
      return undefined;
    const value = (index: number): FormulaValue | undefined => {
      const arg = call.args[index];
      return arg && arg.start < arg.end
        ? evaluate({ ...translation, tokens: tokens.slice(arg.start, arg.end), references })
        : undefined;
    };
    if (call.name === "INDIRECT") {
      const text = value(0);
      // "INDIRECT(x,)" leaves a1 blank, which is FALSE.
      const a1 = call.args.length > 1 ? (value(1) ?? false) : true;
      if (a1 instanceof Values || text === undefined) return undefined;
      const style = truth(a1);
      if (style instanceof FormulaError) return style;
      const find = (one: Scalar): ReturnType<typeof textReference> =>
        textReference(one, style, at, around.book);
      return text instanceof Values ? { several: areasIn(text.rows.flat().map(find)) } : find(text);
    }
    const from = loneReference(tokens, call.args[0], references);
    if (!from) {
      const [only] = bare(tokens.slice(call.args[0]?.start, call.args[0]?.end));
      return only?.type === tokenTypes.ERROR ? new FormulaError(only.value) : undefined;
    }
    const numbers = [1, 2, 3, 4].map(value);
    if (call.name === "INDEX") {
      const [row, column, area] = numbers;
      if (row instanceof Values || column instanceof Values || area !== undefined) return undefined;
      return indexed(from, row, column);
    }
    const choices = numbers.map((number) =>
      number instanceof Values ? number.rows.flat() : number === undefined ? [undefined] : [number],
    );
    const all = combinations(choices).map(([rows, columns, height, width]) =>
      moved(from, rows, columns, height, width),
    );
    const [first] = all;
    if (all.length === 1) return first;
    return { several: areasIn(all) };
  }
}

const areasIn = (found: readonly (PositionedArea | FormulaError | undefined)[]): PositionedArea[] =>
  found.filter((one): one is PositionedArea => one !== undefined && !(one instanceof FormulaError));

/** Most ranges that array arguments may ask for; more are not followed. */
const MAX_RANGES = 10_000;

function combinations<T>(choices: readonly (readonly T[])[]): T[][] {
  return choices.reduce<T[][]>(
    (all, each) => all.flatMap((before) => each.map((one) => [...before, one])).slice(0, MAX_RANGES),
    [[]],
  );
}

function loneReference(
  tokens: readonly Token[],
  arg: CallInTokens["args"][number] | undefined,
  references: readonly WrittenReference[],
): WrittenReference | undefined {
  const [only, ...more] = arg ? bare(tokens.slice(arg.start, arg.end)) : [];
  return only?.type === tokenTypes.REF_RANGE && more.length === 0
    ? references[Number(only.value)]
    : undefined;
}

/** OFFSET. A negative height or width reaches back; if omitted, it is that of the range. */
function moved(
  from: PositionedArea,
  ...[rows, columns, height, width]: readonly (Scalar | undefined)[]
): PositionedArea | FormulaError {
  const wanted = [
    whole(rows ?? 0),
    whole(columns ?? 0),
    height === undefined ? from.bottom - from.top + 1 : whole(height),
    width === undefined ? from.right - from.left + 1 : whole(width),
  ];
  const failed = wanted.find((each) => each instanceof FormulaError);
  if (failed instanceof FormulaError) return failed;
  const [down = 0, across = 0, tall = 0, wide = 0] = wanted as number[];
  const area = {
    sheet: from.sheet,
    top: from.top + down + Math.min(0, tall + 1),
    left: from.left + across + Math.min(0, wide + 1),
    bottom: from.top + down + Math.max(0, tall - 1),
    right: from.left + across + Math.max(0, wide - 1),
  };
  const isInside = area.top >= 0 && area.left >= 0 && area.bottom <= lastRow && area.right <= lastColumn;
  return tall !== 0 && wide !== 0 && isInside ? area : gone;
}

/** INDEX. A 0 means the whole row or column; in a single row, a lone number counts columns. */
function indexed(
  { sheet, top, left, bottom, right }: PositionedArea,
  row: Scalar | undefined,
  column: Scalar | undefined,
): PositionedArea | FormulaError {
  const alone = column === undefined && top === bottom && left !== right;
  const r = alone ? 0 : whole(row ?? 0);
  const c = alone ? whole(row ?? 0) : whole(column ?? (left === right ? 1 : 0));
  if (r instanceof FormulaError) return r;
  if (c instanceof FormulaError) return c;
  if (r < 0 || c < 0) return formulaErrors.value;
  if (r > bottom - top + 1 || c > right - left + 1) return gone;
  return {
    sheet,
    top: r === 0 ? top : top + r - 1,
    bottom: r === 0 ? bottom : top + r - 1,
    left: c === 0 ? left : left + c - 1,
    right: c === 0 ? right : left + c - 1,
  };
}

const gone = new FormulaError("#REF!");

/** A number rounded down to an integer. */
function whole(value: Scalar): number | FormulaError {
  if (value instanceof FormulaError) return value;
  if (typeof value !== "string") return Math.trunc(Number(value));
  return /^[+-]?\d+$/.test(value.trim()) ? Number(value) : formulaErrors.value;
}

function truth(value: Scalar): boolean | FormulaError {
  if (value instanceof FormulaError) return value;
  if (typeof value !== "string") return Boolean(value);
  return /^true$/i.test(value) ? true : /^false$/i.test(value) ? false : formulaErrors.value;
}

/** Joins two references with ":" between them into one. */
function joinEnds(tokens: Token[], references: WrittenReference[]): void {
  for (let i = tokens.length - 2; i > 0; i--) {
    if (!isOperatorToken(tokens[i], ":")) continue;
    const [a, b] = [tokens[i - 1], tokens[i + 1]].map((token) =>
      token?.type === tokenTypes.REF_RANGE ? references[Number(token.value)] : undefined,
    );
    if (a?.sheet === undefined || a.sheet !== b?.sheet) continue;
    references.push(fixed(around(a, b)));
    tokens.splice(i - 1, 3, { type: tokenTypes.REF_RANGE, value: String(references.length - 1) });
  }
}

/** The bounding area of two areas of one sheet. */
export function around(a: PositionedArea, b: PositionedArea): PositionedArea {
  return {
    sheet: a.sheet,
    top: Math.min(a.top, b.top),
    left: Math.min(a.left, b.left),
    bottom: Math.max(a.bottom, b.bottom),
    right: Math.max(a.right, b.right),
  };
}

function fixed({ sheet, top, left, bottom, right }: PositionedArea): WrittenReference {
  const held = { topFixed: true, leftFixed: true, bottomFixed: true, rightFixed: true };
  return { sheet, top, left, bottom, right, ...held };
}
