import { rowLimit } from "../../cells/limits.js";
import { FormulaError, formulaErrors, Values, type FormulaValue, type Scalar } from "../values.js";
import { type Argument, cellsOf, NotHere, rowsOf, single } from "./argument.js";
import { compareValues } from "./compare.js";
import { logical, number, optional, whole } from "./convert.js";
import { badValue, MANY, type NativeFunction, notAvailable, ofArrays } from "./define.js";

type Rows = readonly (readonly Scalar[])[];

function transposed(rows: Rows): Scalar[][] {
  return (rows[0] ?? []).map((_, column) => rows.map((row) => row[column] ?? null));
}

/** An array of the remaining rows; none is #CALC!. */
function arrayOf(rows: Rows): FormulaValue {
  return rows.length === 0 || rows[0]?.length === 0 ? formulaErrors.calculation : new Values(rows);
}

/** Numbers before text before logical values, errors after them; blanks last in either direction. */
function inOrder(direction: number): (a: Scalar, b: Scalar) => number {
  const rank = (value: Scalar): number => (value === null ? 2 : value instanceof FormulaError ? 1 : 0);
  return (a, b) => {
    const [ra, rb] = [rank(a), rank(b)];
    if (ra === 2 || rb === 2) return ra === rb ? 0 : ra - rb;
    if (ra === 1 || rb === 1) return (ra - rb) * direction;
    return compareValues(a as Exclude<Scalar, FormulaError>, b as Exclude<Scalar, FormulaError>) * direction;
  };
}

function direction(argument: Scalar | undefined): 1 | -1 | FormulaError {
  const read = argument === undefined ? 1 : whole(argument);
  if (read instanceof FormulaError) return read;
  return read === 1 || read === -1 ? read : badValue;
}

function sort(array: Argument, index: Argument, order: Argument, byColumn: Argument): FormulaValue {
  const sideways = logical(single(byColumn));
  if (sideways instanceof FormulaError) return sideways;
  const rows = sideways ? transposed(rowsOf(array)) : rowsOf(array);
  const keys = index === undefined ? [1] : cellsOf(index).map(whole);
  const orders = order === undefined ? keys.map(() => 1 as const) : cellsOf(order).map(direction);
  const comparisons: ((a: readonly Scalar[], b: readonly Scalar[]) => number)[] = [];
  for (const [i, key] of keys.entries()) {
    const way = orders[i] ?? badValue;
    if (key instanceof FormulaError) return key;
    if (way instanceof FormulaError) return way;
    if (key < 1 || key > (rows[0]?.length ?? 0)) return badValue;
    comparisons.push((a, b) => inOrder(way)(a[key - 1] ?? null, b[key - 1] ?? null));
  }
  const sorted = [...rows].sort((a, b) => firstOf(comparisons, a, b));
  return arrayOf(sideways ? transposed(sorted) : sorted);
}

function firstOf<T>(comparisons: readonly ((a: T, b: T) => number)[], a: T, b: T): number {
  for (const each of comparisons) {
    const result = each(a, b);
    if (result !== 0) return result;
  }
  return 0;
}

function sortBy(array: Argument, ...by: readonly Argument[]): FormulaValue {
  const given = rowsOf(array);
  const keys = by.filter((_, i) => i % 2 === 0);
  const across = keys.some((key) => rowsOf(key).length === 1 && given.length > 1);
  const rows = across ? transposed(given) : given;
  const comparisons: ((a: number, b: number) => number)[] = [];
  for (const [i, key] of keys.entries()) {
    const list = cellsOf(key);
    const way = direction(single(by[2 * i + 1]));
    if (way instanceof FormulaError) return way;
    if (list.length !== rows.length) return badValue;
    comparisons.push((a, b) => inOrder(way)(list[a] ?? null, list[b] ?? null));
  }
  const places = [...rows.keys()].sort((a, b) => firstOf(comparisons, a, b));
  const sorted = places.map((place) => rows[place] ?? []);
  return arrayOf(across ? transposed(sorted) : sorted);
}

function filter(array: Argument, include: Argument, otherwise: Argument): FormulaValue {
  const given = rowsOf(array);
  const tests = rowsOf(include);
  const across = tests.length === 1 && (tests[0]?.length ?? 0) > 1;
  const rows = across ? transposed(given) : given;
  const list = cellsOf(include);
  if (list.length !== rows.length) return badValue;
  const kept: (readonly Scalar[])[] = [];
  for (const [i, value] of list.entries()) {
    const truth = logical(value);
    if (truth instanceof FormulaError) return truth;
    if (truth) kept.push(rows[i] ?? []);
  }
  if (kept.length === 0) return otherwise ?? formulaErrors.calculation;
  return arrayOf(across ? transposed(kept) : kept);
}

function unique(array: Argument, byColumn: Argument, once: Argument): FormulaValue {
  const sideways = logical(single(byColumn));
  const onlyOnce = logical(single(once));
  if (sideways instanceof FormulaError) return sideways;
  if (onlyOnce instanceof FormulaError) return onlyOnce;
  const rows = sideways ? transposed(rowsOf(array)) : rowsOf(array);
  const found = new Map<string, { row: readonly Scalar[]; times: number }>();
  for (const row of rows) {
    const key = JSON.stringify(row.map((value) => (typeof value === "string" ? value.toUpperCase() : value)));
    const known = found.get(key);
    if (known) known.times++;
    else found.set(key, { row, times: 1 });
  }
  const kept = [...found.values()].filter(({ times }) => !onlyOnce || times === 1).map(({ row }) => row);
  return arrayOf(sideways ? transposed(kept) : kept);
}

/** Most values that a formula may write to cells here. */
const MOST = rowLimit;

function sequence(...args: readonly Argument[]): FormulaValue {
  const [height, width, start, step] = [whole, whole, number, number].map((convert, i) =>
    optional(convert, 1)(args[i] === undefined ? undefined : single(args[i])),
  );
  for (const read of [height, width, start, step]) if (read instanceof FormulaError) return read;
  const [rows, columns, first, by] = [height, width, start, step] as number[] as [
    number,
    number,
    number,
    number,
  ];
  if (rows < 1 || columns < 1) throw new NotHere("it makes less than one row or column");
  if (rows * columns > MOST) throw new NotHere("it makes more than a million values");
  return new Values(
    Array.from({ length: rows }, (_, r) =>
      Array.from({ length: columns }, (__, c) => first + by * (r * columns + c)),
    ),
  );
}

/** Stacks arrays side by side or below each other; missing values are #N/A. */
function stacked(arrays: readonly Argument[]): Values {
  const all = arrays.map(rowsOf);
  const width = Math.max(...all.map((rows) => rows[0]?.length ?? 0));
  return new Values(
    all
      .flat()
      .map((row) =>
        Array.from({ length: width }, (_, i) => (i < row.length ? (row[i] ?? null) : notAvailable)),
      ),
  );
}

/** Matrix product of two rectangles of numbers. */
function product(first: Argument, second: Argument): FormulaValue {
  const [a, b] = [rowsOf(first), rowsOf(second)];
  for (const value of [...a.flat(), ...b.flat()]) {
    if (value instanceof FormulaError) return value;
    if (typeof value !== "number") return badValue;
  }
  if (a[0]?.length !== b.length) return badValue;
  const columns = transposed(b) as number[][];
  return new Values(
    (a as number[][]).map((row) =>
      columns.map((column) => row.reduce((sum, x, i) => sum + x * (column[i] ?? 0), 0)),
    ),
  );
}

export const arrayFunctions: readonly NativeFunction[] = [
  ofArrays("TRANSPOSE", [1, 1], (array) => new Values(transposed(rowsOf(array)))),
  ofArrays("SORT", [1, 4], sort),
  ofArrays("SORTBY", [2, MANY], sortBy),
  ofArrays("FILTER", [2, 3], filter),
  ofArrays("UNIQUE", [1, 3], unique),
  ofArrays("SEQUENCE", [1, 4], sequence),
  ofArrays("VSTACK", [1, MANY], (...arrays) => stacked(arrays)),
  ofArrays("HSTACK", [1, MANY], (...arrays) => {
    const turned = stacked(arrays.map((array) => new Values(transposed(rowsOf(array)))));
    return new Values(transposed(turned.rows));
  }),
  ofArrays("MMULT", [2, 2], product),
];
