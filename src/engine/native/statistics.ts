import { FormulaError, Values, type FormulaValue, type Scalar } from "../values.js";
import { type Argument, broadcast, NotHere } from "./argument.js";
import { number, whole } from "./convert.js";
import { alias, badNumber, divisionByZero, type NativeFunction, notAvailable, ofArrays } from "./define.js";
import { ascending, mean, numbersOf, type NonNumbers, sumOfSquaredDeviations, total } from "./numbers.js";
import { ofNumbers } from "./sums.js";

/** @param lostDegreesOfFreedom those used for the mean: 1 for a sample */
const variance =
  (lostDegreesOfFreedom: number) =>
  (numbers: readonly number[]): number | FormulaError =>
    numbers.length <= lostDegreesOfFreedom
      ? divisionByZero
      : sumOfSquaredDeviations(numbers) / (numbers.length - lostDegreesOfFreedom);

const rootOf =
  (f: (numbers: readonly number[]) => number | FormulaError) =>
  (numbers: readonly number[]): Scalar => {
    const square = f(numbers);
    return square instanceof FormulaError ? square : Math.sqrt(square);
  };

function deviations(
  names: readonly [string, string],
  lostDegreesOfFreedom: number,
  others?: NonNumbers,
): NativeFunction[] {
  return [
    ofNumbers(names[0], rootOf(variance(lostDegreesOfFreedom)), others),
    ofNumbers(names[1], variance(lostDegreesOfFreedom), others),
  ];
}

function middle(numbers: readonly number[]): Scalar {
  if (numbers.length === 0) return badNumber;
  const sorted = ascending(numbers);
  const upper = sorted[Math.floor(sorted.length / 2)] ?? 0;
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[sorted.length / 2 - 1] ?? 0)) / 2;
}

/** The most frequent number; of several, the first. */
function mode(numbers: readonly number[]): Scalar {
  const times = new Map<number, number>();
  for (const x of numbers) times.set(x, (times.get(x) ?? 0) + 1);
  const most = Math.max(0, ...times.values());
  return most < 2 ? notAvailable : ([...times].find(([, count]) => count === most)?.[0] ?? notAvailable);
}

/** Functions that pick one number by its rank, or several. */
function ranked(
  name: string,
  f: (sorted: readonly number[], at: number) => Scalar,
  convert = number,
): NativeFunction {
  return ofArrays(name, [2, 2], (among, places) => {
    const numbers = numbersOf([among]);
    if (numbers instanceof FormulaError) return numbers;
    const sorted = ascending(numbers);
    return broadcast([places], (place) => {
      const at = convert(place);
      if (at instanceof FormulaError) return at;
      if (typeof place === "boolean") throw new NotHere("it takes TRUE or FALSE for a place");
      return sorted.length === 0 ? badNumber : f(sorted, at);
    });
  });
}

function between(sorted: readonly number[], place: number): number {
  const low = Math.floor(place);
  const from = sorted[low] ?? 0;
  return from + (place - low) * ((sorted[low + 1] ?? from) - from);
}

const percentileInclusive = (sorted: readonly number[], share: number): Scalar =>
  share < 0 || share > 1 ? badNumber : between(sorted, share * (sorted.length - 1));

function percentileExclusive(sorted: readonly number[], share: number): Scalar {
  const place = share * (sorted.length + 1) - 1;
  return share <= 0 || share >= 1 || place < 0 || place > sorted.length - 1
    ? badNumber
    : between(sorted, place);
}

const percentile = ranked("PERCENTILE.INC", percentileInclusive);
const quartile = ranked(
  "QUARTILE.INC",
  (sorted, quarter) => (quarter < 0 || quarter > 4 ? badNumber : percentileInclusive(sorted, quarter / 4)),
  whole,
);

/** Rank from 1. */
function rank(value: Argument, among: Argument, order: Argument): FormulaValue {
  const numbers = numbersOf([among]);
  return broadcast([value, order], (one, direction) => {
    const x = number(one);
    const rising = number(direction);
    if (x instanceof FormulaError) return x;
    if (typeof one !== "number") throw new NotHere("it ranks what is no number");
    if (rising instanceof FormulaError) return rising;
    if (numbers instanceof FormulaError) return numbers;
    // #N/A in Excel, #VALUE! in others.
    if (!numbers.includes(x)) throw new NotHere("it ranks a number that is not in the list");
    return 1 + numbers.filter((other) => (rising === 0 ? other > x : other < x)).length;
  });
}

const rankEqual = ofArrays("RANK.EQ", [2, 3], rank);

/** Third or fourth standardised moment about the mean, summed. */
function moments(numbers: readonly number[], power: number): number {
  const centre = mean(numbers);
  const standardDeviation = Math.sqrt(sumOfSquaredDeviations(numbers) / (numbers.length - 1));
  return total(numbers.map((x) => ((x - centre) / standardDeviation) ** power));
}

function skewness(numbers: readonly number[]): Scalar {
  const n = numbers.length;
  if (n < 3 || sumOfSquaredDeviations(numbers) === 0) return divisionByZero;
  return (n / ((n - 1) * (n - 2))) * moments(numbers, 3);
}

function kurtosis(numbers: readonly number[]): Scalar {
  const n = numbers.length;
  if (n < 4 || sumOfSquaredDeviations(numbers) === 0) return divisionByZero;
  const fourth = ((n * (n + 1)) / ((n - 1) * (n - 2) * (n - 3))) * moments(numbers, 4);
  return fourth - (3 * (n - 1) ** 2) / ((n - 2) * (n - 3));
}

/** A mean of positive numbers only. */
const ofPositive =
  (f: (numbers: readonly number[]) => number) =>
  (numbers: readonly number[]): Scalar =>
    numbers.length === 0 || numbers.some((x) => x <= 0) ? badNumber : f(numbers);

const ofSome =
  (f: (numbers: readonly number[]) => number) =>
  (numbers: readonly number[]): Scalar =>
    numbers.length === 0 ? badNumber : f(numbers);

/** @throws NotHere for a place between two, which some round up and others down */
function atWhole(place: number): number {
  if (!Number.isInteger(place)) throw new NotHere("it asks for a place between two");
  return place;
}

const modeOnce = ofNumbers("MODE.SNGL", mode);

/** Counts the numbers up to each bin's limit and above the one before; then the rest. */
function frequency(data: Argument, bins: Argument): FormulaValue {
  const numbers = numbersOf([data]);
  const limits = numbersOf([bins]);
  if (numbers instanceof FormulaError) return numbers;
  if (limits instanceof FormulaError) return limits;
  if (limits.some((limit, i) => i > 0 && limit <= (limits[i - 1] ?? limit)))
    throw new NotHere("FREQUENCY is given bins that do not rise");
  const counts = [...limits, Infinity].map((limit, i) => {
    const above = limits[i - 1] ?? -Infinity;
    return numbers.filter((x) => x > above && x <= limit).length;
  });
  return new Values(counts.map((count) => [count]));
}

export const statisticalFunctions: readonly NativeFunction[] = [
  ofArrays("FREQUENCY", [2, 2], frequency),
  ...deviations(["STDEV.S", "VAR.S"], 1),
  ...deviations(["STDEV", "VAR"], 1),
  ...deviations(["STDEV.P", "VAR.P"], 0),
  ...deviations(["STDEVP", "VARP"], 0),
  ...deviations(["STDEVA", "VARA"], 1, "count as numbers"),
  ...deviations(["STDEVPA", "VARPA"], 0, "count as numbers"),
  ofNumbers("MEDIAN", middle, "pass over", true),
  modeOnce,
  alias("MODE", modeOnce),
  ranked("LARGE", (sorted, place) => sorted[sorted.length - atWhole(place)] ?? badNumber),
  ranked("SMALL", (sorted, place) => sorted[atWhole(place) - 1] ?? badNumber),
  percentile,
  alias("PERCENTILE", percentile),
  ranked("PERCENTILE.EXC", percentileExclusive),
  quartile,
  alias("QUARTILE", quartile),
  ranked("QUARTILE.EXC", (sorted, quarter) => percentileExclusive(sorted, quarter / 4), whole),
  rankEqual,
  alias("RANK", rankEqual),
  ofNumbers("SKEW", skewness),
  ofNumbers("KURT", kurtosis),
  ofNumbers("DEVSQ", ofSome(sumOfSquaredDeviations)),
  ofNumbers(
    "AVEDEV",
    ofSome((numbers) => {
      const centre = mean(numbers);
      return mean(numbers.map((x) => Math.abs(x - centre)));
    }),
  ),
  ofNumbers(
    "GEOMEAN",
    ofPositive((numbers) => Math.exp(mean(numbers.map(Math.log)))),
  ),
  ofNumbers(
    "HARMEAN",
    ofPositive((numbers) => 1 / mean(numbers.map((x) => 1 / x))),
  ),
];
