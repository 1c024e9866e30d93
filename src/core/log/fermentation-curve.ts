import { fitCurve, type Curve, type FittedCurve, type Points } from "../numeric/curve-fit.js";
import type { FallingStretch } from "./fermentation.js";
import { lastOf, valueAt } from "../numeric/value-at.js";

/**
 * A family of curves along which gravity falls from one level to another. The four parameters are, in this order: the
 * gravity before and the fall, in points; the rate, per day; and the time of the centre, days.
 */
export interface Family {
  readonly name: "logistic" | "Gompertz";
  readonly curve: Curve;
  /** Time at which it passes a gravity; NaN outside its two levels. */
  readonly timeOf: (gravity: number, parameters: readonly number[]) => number;
  /** Share of the fall that lies before the centre. */
  readonly fallenAtCentre: number;
}

type Numbers = readonly [top: number, fall: number, rate: number, centre: number];
const four = (parameters: readonly number[]): Numbers => parameters as unknown as Numbers;

// Growth curves of Verhulst (1838) and Gompertz (1825) in their usual forms, upside down: Zwietering, Jongenburger,
// Rombouts and van 't Riet, Appl. Environ. Microbiol. 56 (1990) 1875–1881, compares the two (from memory).
const logistic: Family = {
  name: "logistic",
  curve: (parameters) => {
    const [top, fall, rate, centre] = four(parameters);
    return (t) => top - fall / (1 + Math.exp(-rate * (t - centre)));
  },
  timeOf: (gravity, parameters) => {
    const [top, fall, rate, centre] = four(parameters);
    return centre - Math.log(fall / (top - gravity) - 1) / rate;
  },
  fallenAtCentre: 1 / 2,
};

const gompertz: Family = {
  name: "Gompertz",
  curve: (parameters) => {
    const [top, fall, rate, centre] = four(parameters);
    return (t) => top - fall * Math.exp(-Math.exp(-rate * (t - centre)));
  },
  timeOf: (gravity, parameters) => {
    const [top, fall, rate, centre] = four(parameters);
    return centre - Math.log(-Math.log((top - gravity) / fall)) / rate;
  },
  fallenAtCentre: Math.exp(-1),
};

/** Where a curve levels off, points. */
export function finalOf(parameters: readonly number[]): number {
  const [top, fall] = four(parameters);
  return top - fall;
}

/** A family fitted to a log. */
export interface FermentationCurve extends FittedCurve {
  readonly family: Family;
  /** Akaike weight among the families. */
  readonly weight: number;
  /** Gravity at which it levels off, points. */
  readonly final: number;
}

/** A log is averaged over this many bins of time, so that a long tail does not outweigh the fall. */
const BINS = 120;

/** Means of readings over bins of equal length; times are from the first reading. */
function binned(part: FallingStretch): Points {
  const begin = valueAt(part, 0).time;
  const length = (lastOf(part).time - begin) / BINS;
  const [x, y]: [number[], number[]] = [[], []];
  for (let from = 0, to = 0; from < part.length; from = to) {
    const end = begin + length * (Math.floor((valueAt(part, from).time - begin) / length) + 1);
    do to++;
    while ((part[to]?.time ?? Infinity) < end);
    const readings = part.slice(from, to);
    const mean = (of: (reading: FallingStretch[number]) => number): number =>
      readings.reduce((sum, reading) => sum + of(reading), 0) / readings.length;
    x.push(mean(({ time }) => time - begin));
    y.push(mean(({ read }) => read));
  }
  return { x, y };
}

/** Initial guesses for how much of the whole fall is still to come. */
const TO_COME = [0.02, 0.5];

/** Initial guesses, from the times at which the log passed a fifth, the centre and four fifths of its fall. */
function initialGuesses({ x, y }: Points, { fallenAtCentre }: Family): Numbers[] {
  const [first, last] = [valueAt(y, 0), lastOf(y)];
  return TO_COME.map((more): Numbers => {
    const fall = (first - last) * (1 + more);
    const when = (share: number): number =>
      x[y.findIndex((value) => value <= first - share * fall)] ?? lastOf(x);
    const width = Math.max(when(0.8) - when(0.2), 0.2);
    return [Math.max(first, 1), fall, 3 / width, Math.max(when(fallenAtCentre), 0.1)];
  });
}

/** No beer ends below this, points. */
const LOWEST_FINAL = -15;

function isFall({ parameters }: FittedCurve): boolean {
  const [, fall, rate] = four(parameters);
  return fall > 0 && rate > 0 && finalOf(parameters) > LOWEST_FINAL;
}

function bestFit(points: Points, family: Family): FittedCurve | undefined {
  const fits = initialGuesses(points, family).map((start) => fitCurve(points, family.curve, start));
  return fits
    .filter((fit) => fit !== undefined)
    .filter(isFall)
    .sort((a, b) => a.residualSumOfSquares - b.residualSumOfSquares)[0];
}

/** Share of the fall so far that is left out: the start of a fermentation says little about its end. */
const SKIPPED_START = 0.2;
/** Readings that are kept in any case: two more than a curve has parameters. */
const MIN_READINGS = 6;

function withoutStart({ x, y }: Points): Points {
  const [first, last] = [valueAt(y, 0), lastOf(y)];
  const fallen = y.findIndex((value) => value <= first - SKIPPED_START * (first - last));
  const from = Math.max(0, Math.min(fallen, y.length - MIN_READINGS));
  return { x: x.slice(from), y: y.slice(from) };
}

/** Squared residual per reading that rounding alone causes: below it no family is better than another. */
const ROUNDING = 0.01;

/**
 * Curves fitted to the fall of a part of a log, the likeliest first.
 *
 * Both families have four parameters, so Akaike's criterion, corrected for small samples or not, ranks them by their
 * residual sums of squares. Weights as in Burnham and Anderson, Model Selection and Multimodel Inference (2002),
 * section 2.9 (from memory).
 */
export function fermentationCurves(part: FallingStretch): FermentationCurve[] {
  const points = withoutStart(binned(part));
  const n = points.x.length;
  const fits = [logistic, gompertz].flatMap((family) => {
    const fit = bestFit(points, family);
    return fit ? [{ family, fit, likely: (fit.residualSumOfSquares / n + ROUNDING) ** (-n / 2) }] : [];
  });
  const all = fits.reduce((sum, { likely }) => sum + likely, 0);
  return fits
    .map(({ family, fit, likely }) => {
      return { ...fit, family, weight: likely / all, final: finalOf(fit.parameters) };
    })
    .sort((a, b) => b.weight - a.weight);
}
