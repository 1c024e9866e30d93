import { lastColumn, lastRow } from "../../cells/limits.js";
import { columnLetters } from "../../cells/a1.js";
import { quotedSheetName } from "../../formulas/sheet-name.js";
import { FormulaError, Values, type FormulaValue, type Scalar } from "../values.js";
import { type Argument, cellsOf, isSeveral, broadcast, NotHere, rowsOf, single } from "./argument.js";
import { compareValues } from "./compare.js";
import { any, logical, optional, text, whole } from "./convert.js";
import {
  badReference,
  badValue,
  MANY,
  type NativeFunction,
  notAvailable,
  ofArrays,
  ofValues,
} from "./define.js";
import { allOf, firstOf, firstSame } from "./exact-search.js";
import { hasWildcard, wildcardTest } from "./wildcards.js";

type Rows = readonly (readonly Scalar[])[];
type Sought = Exclude<Scalar, FormulaError>;

/**
 * A value is searched for among values of its type, but other programs take TRUE for 1 and text for more than any
 * number.
 *
 * @throws NotHere if nothing has the type of the value sought, and it matters
 */
function askedOf(sought: Sought, list: readonly Scalar[], isExact: boolean): void {
  if (isExact && typeof sought !== "boolean") return;
  if (!list.some((value) => typeof value === typeof sought))
    throw new NotHere("it looks for a value among values of other kinds");
}

/** First place of the value; text may have wildcards. -1 if there is none. */
function exactPlace(sought: Sought, list: readonly Scalar[], wildcards: boolean): number {
  askedOf(sought, list, true);
  if (wildcards && typeof sought === "string" && hasWildcard(sought)) {
    const test = wildcardTest(sought);
    return list.findIndex((value) => typeof value === "string" && test(value));
  }
  return firstSame(sought, list);
}

/**
 * Last place whose value is not beyond the one sought, in a sorted list. Values of other types are skipped.
 *
 * @param direction 1 for ascending, -1 for descending
 * @throws NotHere for an unsorted list: Excel's result depends on its binary search
 */
function sortedPlace(sought: Sought, list: readonly Scalar[], direction: 1 | -1): number {
  askedOf(sought, list, false);
  let found = -1;
  let before: Sought | undefined;
  for (const [place, value] of list.entries()) {
    if (value instanceof FormulaError || value === null || typeof value !== typeof sought) continue;
    if (before !== undefined && compareValues(value, before) * direction < 0)
      throw new NotHere("it looks for a value in a list that is not sorted");
    before = value;
    if (compareValues(value, sought) * direction <= 0) found = place;
  }
  return found;
}

/** Searches for each of the values; errors pass through, a blank is 0. */
function forEach(sought: Argument, find: (value: Sought) => Scalar): FormulaValue {
  return broadcast([sought], (value) => (value instanceof FormulaError ? value : find(value ?? 0)));
}

function match(sought: Argument, among: Argument, kind: Argument): FormulaValue {
  const rows = rowsOf(among);
  if (rows.length > 1 && (rows[0]?.length ?? 0) > 1) return notAvailable;
  const list = allOf(rows);
  const mode = kind === undefined ? 1 : whole(single(kind));
  if (mode instanceof FormulaError) return mode;
  return forEach(sought, (value) => {
    const place = mode === 0 ? exactPlace(value, list, true) : sortedPlace(value, list, mode > 0 ? 1 : -1);
    return place < 0 ? notAvailable : place + 1;
  });
}

/** VLOOKUP and HLOOKUP: searches the first line of a table, and returns from another line. */
function fromTable(
  keysOf: (rows: Rows) => readonly Scalar[],
  at: (rows: Rows, line: number, place: number) => Scalar | undefined,
  linesOf: (rows: Rows) => number,
): (...args: readonly Argument[]) => FormulaValue {
  return (sought, table, index, approximate) => {
    const rows = rowsOf(table);
    const near = approximate === undefined ? true : logical(single(approximate));
    const keys = keysOf(rows);
    return broadcast([sought, index], (value, wanted) => {
      if (value instanceof FormulaError) return value;
      const line = whole(wanted);
      if (line instanceof FormulaError) return line;
      if (line < 1) return badValue;
      if (line > linesOf(rows)) return badReference;
      if (near instanceof FormulaError) return near;
      const key = value ?? 0;
      const place = near ? sortedPlace(key, keys, 1) : exactPlace(key, keys, true);
      return place < 0 ? notAvailable : (at(rows, line - 1, place) ?? null);
    });
  };
}

/**
 * Searches a row, a column, or the longer side of a table, and returns from another one, or from the table's far side.
 */
function lookup(sought: Argument, among: Argument, results: Argument): FormulaValue {
  const rows = rowsOf(among);
  const width = rows[0]?.length ?? 0;
  const across = width > rows.length;
  const first = across ? (rows[0] ?? []) : rows.map((row) => row[0] ?? null);
  const last = across ? (rows.at(-1) ?? []) : rows.map((row) => row.at(-1) ?? null);
  const taken = results === undefined ? last : cellsOf(results);
  if (results !== undefined) {
    const shape = rowsOf(results);
    if (shape.length > 1 && (shape[0]?.length ?? 0) > 1) return notAvailable;
    if (taken.length < first.length) throw new NotHere("LOOKUP takes from fewer cells than it looks in");
  }
  return forEach(sought, (value) => {
    const place = sortedPlace(value, first, 1);
    return place < 0 ? notAvailable : (taken[place] ?? null);
  });
}

interface Search {
  readonly kind: number;
  readonly order: number;
}

/** Exact (0), next smaller (-1), next larger (1), or wildcards (2); from the first (1) or from the last (-1). */
function searched(value: Sought | FormulaError, list: readonly Scalar[], { kind, order }: Search): number {
  if (value instanceof FormulaError) return -1;
  if (Math.abs(order) !== 1) throw new NotHere("it asks for a search by halves");
  const places = [...list.keys()];
  if (order < 0) places.reverse();
  const inOrder = places.map((place) => list[place] ?? null);
  const exact = exactPlace(value, inOrder, kind === 2);
  if (exact >= 0) return places[exact] ?? -1;
  if (kind !== 1 && kind !== -1) return -1;
  let best = -1;
  for (const [i, candidate] of inOrder.entries()) {
    if (candidate === null || candidate instanceof FormulaError || typeof candidate !== typeof value)
      continue;
    const side = compareValues(candidate, value) * kind;
    if (side < 0) continue;
    const known = best < 0 ? undefined : (inOrder[best] as Sought);
    if (known === undefined || compareValues(candidate, known) * kind < 0) best = i;
  }
  return best < 0 ? -1 : (places[best] ?? -1);
}

function searchOf(kind: Argument, order: Argument): Search | FormulaError {
  const mode = whole(single(kind));
  const direction = order === undefined ? 1 : whole(single(order));
  if (mode instanceof FormulaError) return mode;
  if (direction instanceof FormulaError) return direction;
  return [-1, 0, 1, 2].includes(mode) && [-2, -1, 1, 2].includes(direction)
    ? { kind: mode, order: direction }
    : badValue;
}

function xmatch(sought: Argument, among: Argument, kind: Argument, order: Argument): FormulaValue {
  const search = searchOf(kind, order);
  if (search instanceof FormulaError) return search;
  const list = cellsOf(among);
  return forEach(sought, (value) => {
    const place = searched(value, list, search);
    return place < 0 ? notAvailable : place + 1;
  });
}

function xlookup(...args: readonly Argument[]): FormulaValue {
  const [sought, among, results, otherwise = notAvailable, kind, order] = args;
  const search = searchOf(kind, order);
  if (search instanceof FormulaError) return search;
  const list = cellsOf(among);
  const rows = rowsOf(results);
  const wanted = single(sought);
  if (!isSeveral(sought) && wanted instanceof FormulaError) return wanted;
  if (rowsOf(among).length > 1 && (rowsOf(among)[0]?.length ?? 0) > 1)
    throw new NotHere("it looks for a value in several rows and columns at once");
  const down = rowsOf(among).length > 1 || (rows.length === list.length && list.length === 1);
  if (list.length !== (down ? rows.length : (rows[0]?.length ?? 0))) return badValue;
  const taken = (place: number): readonly Scalar[] =>
    down ? (rows[place] ?? []) : rows.map((row) => row[place] ?? null);
  if (!isSeveral(sought)) {
    const place = searched(wanted ?? 0, list, search);
    if (place < 0) return otherwise;
    const line = taken(place);
    return down ? new Values([line]) : new Values(line.map((value) => [value]));
  }
  const fallback = single(otherwise) ?? null;
  return forEach(sought, (value) => {
    const place = searched(value, list, search);
    return place < 0 ? fallback : (taken(place)[0] ?? null);
  });
}

function choose(index: Argument, ...choices: readonly Argument[]): FormulaValue {
  const pick = (value: Scalar | undefined): Argument => {
    const place = whole(value);
    if (place instanceof FormulaError) return place;
    return place < 1 || place > choices.length ? badValue : (choices[place - 1] ?? null);
  };
  if (!isSeveral(index)) return pick(single(index)) ?? null;
  return broadcast([index, ...choices], (value, ...values) => {
    const place = whole(value);
    if (place instanceof FormulaError) return place;
    return place < 1 || place > values.length ? badValue : (values[place - 1] ?? null);
  });
}

/** "$B$3" and similar. Kinds 1 to 4 leave out one "$" or both. */
function addressOf(row: number, column: number, kind: number, isA1: boolean, sheet: string): Scalar {
  if (row < 1 || column < 1 || row > lastRow + 1 || column > lastColumn + 1 || kind < 1 || kind > 4)
    return badValue;
  if (!isA1) throw new NotHere("it writes an address as R1C1");
  const [columnFixed, rowFixed] = [kind === 1 || kind === 3, kind <= 2];
  const cell = `${columnFixed ? "$" : ""}${columnLetters(column - 1)}${rowFixed ? "$" : ""}${row}`;
  return sheet === "" ? cell : `${quotedSheetName(sheet)}!${cell}`;
}

export const lookupFunctions: readonly NativeFunction[] = [
  ofArrays("MATCH", [2, 3], match),
  ofArrays("XMATCH", [2, 4], xmatch),
  ofArrays(
    "VLOOKUP",
    [3, 4],
    fromTable(
      firstOf,
      (rows, line, place) => rows[place]?.[line],
      (rows) => rows[0]?.length ?? 0,
    ),
  ),
  ofArrays(
    "HLOOKUP",
    [3, 4],
    fromTable(
      (rows) => rows[0] ?? [],
      (rows, line, place) => rows[line]?.[place],
      (rows) => rows.length,
    ),
  ),
  ofArrays("LOOKUP", [2, 3], lookup),
  ofArrays("XLOOKUP", [3, 6], xlookup),
  ofArrays("CHOOSE", [2, MANY], choose),
  ofValues(
    "ADDRESS",
    [whole, whole, optional(whole, 1), optional(logical, true), optional(text, "")],
    addressOf,
    2,
  ),
  ofValues(
    "HYPERLINK",
    [text, (value) => (value === undefined ? null : any(value))],
    (link, shown) => shown ?? link,
    1,
  ),
];
