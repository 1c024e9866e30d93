import { FormulaError, type Scalar } from "../values.js";
import { compareTexts, isSameValue, nearlyEqual } from "./compare.js";

// Thousands of formulas may search the same column. Scanning it for each would take quadratic time, so a list that is
// searched repeatedly is sorted once.

/** Scans of a list before it is sorted. */
const FEW = 4;

/** Distinct values of one type in order, each with its first place. */
interface Ordered<T> {
  readonly values: readonly T[];
  readonly places: readonly number[];
}

interface Known {
  asked: number;
  numbers?: Ordered<number>;
  texts?: Ordered<string>;
}

const lists = new WeakMap<readonly Scalar[], Known>();

/** First place of a value in a list that no longer changes; -1 if there is none. */
export function firstSame(sought: Exclude<Scalar, FormulaError>, list: readonly Scalar[]): number {
  if (sought === null) return -1;
  const known = lists.get(list) ?? { asked: 0 };
  if (known.asked++ === 0) lists.set(list, known);
  if (known.asked <= FEW || typeof sought === "boolean")
    return list.findIndex((value) => !(value instanceof FormulaError) && isSameValue(value, sought));
  if (typeof sought === "string") {
    const { values, places } = (known.texts ??= inOrder(list, isText, compareTexts));
    const at = firstNotBelow(values, (value) => compareTexts(value, sought) < 0);
    const found = values[at];
    return found !== undefined && compareTexts(found, sought) === 0 ? (places[at] ?? -1) : -1;
  }
  const { values, places } = (known.numbers ??= inOrder(list, isNumber, (a, b) => a - b));
  // Numbers that differ in their last bits are equal, so there may be several.
  const reach = Math.abs(sought) * 2 ** -47;
  let first = -1;
  for (let at = firstNotBelow(values, (value) => value < sought - reach); at < values.length; at++) {
    const value = values[at] ?? Infinity;
    if (value > sought + reach) break;
    const place = places[at] ?? -1;
    if (nearlyEqual(value, sought) && (first < 0 || place < first)) first = place;
  }
  return first;
}

const isNumber = (value: Scalar): value is number => typeof value === "number";
const isText = (value: Scalar): value is string => typeof value === "string";

function inOrder<T extends Scalar>(
  list: readonly Scalar[],
  isOfKind: (value: Scalar) => value is T,
  order: (a: T, b: T) => number,
): Ordered<T> {
  const all = list
    .flatMap((value, place) => (isOfKind(value) ? [{ value, place }] : []))
    .sort((a, b) => order(a.value, b.value) || a.place - b.place);
  const once = all.filter(({ value }, i) => {
    const before = all[i - 1];
    return before === undefined || order(before.value, value) !== 0;
  });
  return { values: once.map(({ value }) => value), places: once.map(({ place }) => place) };
}

function firstNotBelow<T>(values: readonly T[], isBelow: (value: T) => boolean): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isBelow(values[middle] as T)) low = middle + 1;
    else high = middle;
  }
  return low;
}

type Rows = readonly (readonly Scalar[])[];

/** Creates lists from ranges, once for as long as the range is cached. */
function keeping(make: (rows: Rows) => readonly Scalar[]): (rows: Rows) => readonly Scalar[] {
  const made = new WeakMap<Rows, readonly Scalar[]>();
  return (rows) => {
    const known = made.get(rows);
    if (known) return known;
    const list = make(rows);
    made.set(rows, list);
    return list;
  };
}

/** The first column of a range. */
export const firstOf = keeping((rows) => rows.map((row) => row[0] ?? null));

/** All values of a range, row by row. */
export const allOf = keeping((rows) => rows.flat());
