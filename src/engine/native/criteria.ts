import { FormulaError, Values, type FormulaValue, type Scalar } from "../values.js";
import { type Argument, cellsOf, broadcast, NotHere } from "./argument.js";
import { compareValues, compareTexts, nearlyEqual } from "./compare.js";
import { truthIn } from "./convert.js";
import { badValue, divisionByZero, MANY, type NativeFunction, ofArrays } from "./define.js";
import { mean, total } from "./numbers.js";
import { hasWildcard, wildcardTest } from "./wildcards.js";

type Test = (value: Scalar) => boolean;

const operatorIn = /^(<>|<=|>=|=|<|>)?([^]*)$/;
const plainNumber = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?\s*%?\s*$/i;

/** A criterion such as 5, "pale", ">=1.050" or "p*", as a test of cells. */
function criterion(given: Scalar): Test {
  if (typeof given !== "string") return equalTo(given ?? 0);
  const [, operator = "", operand = ""] = operatorIn.exec(given) ?? [];
  if (operand === "") return ofNothing(operator);
  const wanted = spelled(operand);
  if (operator === "" || operator === "=") return equalTo(wanted);
  if (operator === "<>") {
    const equal = equalTo(wanted);
    return (value) => !equal(value);
  }
  return ordered(operator, wanted);
}

/** "" matches cells that show nothing, "=" blank ones, "<>" non-blank ones; nothing is less or greater than a blank. */
function ofNothing(operator: string): Test {
  if (operator === "") return (value) => value === null || value === "";
  if (operator === "=") return (value) => value === null;
  if (operator === "<>") return (value) => value !== null;
  return () => false;
}

function spelled(operand: string): Scalar {
  if (plainNumber.test(operand)) return parseFloat(operand) / (operand.trimEnd().endsWith("%") ? 100 : 1);
  const truth = truthIn(operand);
  if (truth !== undefined) return truth;
  if (/^#[A-Z/0!?]+$/i.test(operand)) return new FormulaError(operand.toUpperCase());
  if (/^\s*[-+$€£]?\s*\d[\d\s.,:/-]*$/.test(operand))
    throw new NotHere(`whether "${operand}" is a number depends on the language of Excel`);
  return operand;
}

function equalTo(wanted: Scalar): Test {
  if (wanted instanceof FormulaError)
    return (value) => value instanceof FormulaError && value.error === wanted.error;
  if (typeof wanted === "number")
    return (value) => {
      if (typeof value === "number") return nearlyEqual(value, wanted);
      return typeof value === "string" && plainNumber.test(value) && spelled(value) === wanted;
    };
  if (typeof wanted !== "string") return (value) => value === wanted;
  if (hasWildcard(wanted)) {
    const test = wildcardTest(wanted);
    return (value) => typeof value === "string" && test(value);
  }
  return (value) => typeof value === "string" && compareTexts(value, wanted) === 0;
}

/** Numbers are compared with numbers only, text with text, logical values with logical values. */
function ordered(operator: string, wanted: Scalar): Test {
  if (wanted instanceof FormulaError || wanted === null) return () => false;
  const isIn = (order: number): boolean =>
    (operator.includes("=") && order === 0) || (operator.startsWith("<") ? order < 0 : order > 0);
  return (value) =>
    !(value instanceof FormulaError) && typeof value === typeof wanted && isIn(compareValues(value, wanted));
}

/** Where every range meets its criterion; undefined if the ranges differ in shape. */
function matching(pairs: readonly Argument[], criteria: readonly Scalar[]): boolean[] | undefined {
  const ranges = pairs.filter((_, i) => i % 2 === 0);
  const [first] = ranges;
  if (!(first instanceof Values)) throw new NotHere("criteria are looked for in ranges of cells");
  const fits = ranges.every(
    (range) => range instanceof Values && range.height === first.height && range.width === first.width,
  );
  if (!fits) return undefined;
  const tests = criteria.map(criterion);
  const lists = ranges.map(cellsOf);
  return (lists[0] ?? []).map((_, place) => tests.every((test, i) => test(lists[i]?.[place] ?? null)));
}

/** Applies a function to the numbers of the chosen cells, or returns the first error among them. */
function ofChosen(f: (numbers: readonly number[]) => Scalar): (cells: readonly Scalar[]) => Scalar {
  return (cells) => {
    const error = cells.find((value) => value instanceof FormulaError);
    return error ?? f(cells.filter((value) => typeof value === "number"));
  };
}

/** With a range of criteria instead of one, gives a result for each. */
function forCriteria(pairs: readonly Argument[], f: (matches: readonly boolean[]) => Scalar): FormulaValue {
  const criteria = pairs.filter((_, i) => i % 2 === 1);
  return broadcast(criteria, (...values) => {
    const matches = matching(
      pairs,
      values.map((value) => value ?? null),
    );
    return matches ? f(matches) : badValue;
  });
}

/** Range, criterion, and the cells to use, which default to the range. */
function withOne(name: string, f: (cells: readonly Scalar[]) => Scalar): NativeFunction {
  return ofArrays(name, [2, 3], (range, given, taken = range) => {
    const isAlike =
      range instanceof Values &&
      taken instanceof Values &&
      range.height === taken.height &&
      range.width === taken.width;
    // Excel uses as many cells as the range has, from the first one given; these are not known here.
    if (!isAlike) throw new NotHere(`${name} is given ranges of two shapes`);
    const cells = cellsOf(taken);
    return forCriteria([range, given], (matches) => f(cells.filter((_, i) => matches[i])));
  });
}

/** The cells to use first, then pairs of range and criterion. */
function withMany(name: string, f: (cells: readonly Scalar[]) => Scalar): NativeFunction {
  return ofArrays(name, [3, MANY], (taken, ...pairs) => {
    const [range] = pairs;
    if (!(taken instanceof Values)) throw new NotHere(`${name} takes a range of cells`);
    const fits = range instanceof Values && range.height === taken.height && range.width === taken.width;
    if (!fits || pairs.length % 2 === 1) return badValue;
    const cells = cellsOf(taken);
    return forCriteria(pairs, (matches) => f(cells.filter((_, i) => matches[i])));
  });
}

const count = (matches: readonly boolean[]): number => matches.filter(Boolean).length;
const average = (numbers: readonly number[]): Scalar =>
  numbers.length === 0 ? divisionByZero : mean(numbers);
const extreme = (pick: (a: number, b: number) => number): ((numbers: readonly number[]) => number) => {
  return (numbers) => (numbers.length === 0 ? 0 : numbers.reduce((a, b) => pick(a, b)));
};

export const criteriaFunctions: readonly NativeFunction[] = [
  ofArrays("COUNTIF", [2, 2], (range, given) => forCriteria([range, given], count)),
  ofArrays("COUNTIFS", [2, MANY], (...pairs) =>
    pairs.length % 2 === 1 ? badValue : forCriteria(pairs, count),
  ),
  withOne("SUMIF", ofChosen(total)),
  withMany("SUMIFS", ofChosen(total)),
  withOne("AVERAGEIF", ofChosen(average)),
  withMany("AVERAGEIFS", ofChosen(average)),
  withMany("MINIFS", ofChosen(extreme(Math.min))),
  withMany("MAXIFS", ofChosen(extreme(Math.max))),
];
