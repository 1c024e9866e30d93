import type { Fermentation, FallingStretch } from "./fermentation.js";
import type { Reading } from "./readings-log.js";
import { rateIn } from "./fermentation-rate.js";
import { passed } from "./fermentation-stages.js";
import { fermentationCurves, finalOf, type FermentationCurve } from "./fermentation-curve.js";
import { gravityOfPoints } from "../liquid/points.js";
import { type Reason, Refusal } from "../refusal.js";
import { lastOf, valueAt } from "../numeric/value-at.js";

/** When a gravity is reached. */
export interface Reached {
  /** Days, on the time scale of the log. */
  readonly time: number;
  /** Standard error of a forecast, days; undefined if the log itself shows it. */
  readonly standardError: number | undefined;
}

/** Enough for a curve with four parameters, plus two. */
const MIN_READINGS = 6;
/** Gravity must have fallen by this many points before a curve can be fitted. */
const MIN_FALL = 5;
/** A fall slower than this share of its fastest rate has begun to slow. */
const SLOWER = 0.8;
/** Curves with a smaller Akaike weight are ignored. */
const UNLIKELY = 0.05;
/** A forecast with a larger half-width, at two standard errors, is refused: days, or a share of the time ahead. */
const VAGUE = { days: 1, share: 0.5 };

/**
 * When a fermentation reached a gravity, or is forecast to.
 *
 * Reached: the last time that smooth gravity passed it, interpolated linearly between readings. Otherwise the likelier
 * of the logistic and the Gompertz curve, fitted to the readings since sugar was last added, gives the time. The
 * difference between the two curves counts as uncertainty, together with that of the fit.
 *
 * @returns a function from a target, points, to when it is reached. It throws a Refusal if the log began below the
 *   target or cannot carry a forecast: too few readings, too little fall, a fall that has not begun to slow, a target
 *   below where the curve levels off, or too vague an answer
 */
export function reachedBy(log: Fermentation): (target: number) => Reached {
  const begins = valueAt(valueAt(log.parts, 0), 0).gravity;
  const part = lastOf(log.parts);
  let outlook: Outlook | undefined;
  return (target) => {
    if (lastOf(part).gravity > target) return forecast((outlook ??= outlookOf(part)), target);
    const when = passed(log.parts, target);
    if (when) return { time: when.time, standardError: undefined };
    throw new Refusal({
      kind: "below-from-the-start",
      begins: gravityOfPoints(begins),
      target: gravityOfPoints(target),
    });
  };
}

/** How a part of a log is likely to continue. */
interface Outlook {
  /** Days: time of its first reading, and from there to its last. */
  readonly begin: number;
  readonly length: number;
  readonly slows: boolean;
  readonly curves: readonly FermentationCurve[];
}

/** @throws Refusal for too few readings, and too little fall */
function outlookOf(part: FallingStretch): Outlook {
  if (part.length < MIN_READINGS)
    throw new Refusal({ kind: "too-few-readings", given: part.length, needed: MIN_READINGS });
  const [first, last] = [valueAt(part, 0), lastOf(part)];
  const fall = first.gravity - last.gravity;
  if (!(fall >= MIN_FALL)) throw new Refusal({ kind: "no-fall-yet", fall, needed: MIN_FALL });
  const rate = rateIn(part);
  const fastest = part.reduce((most, { time }) => Math.max(most, rate(time)), 0);
  return {
    begin: first.time,
    length: last.time - first.time,
    slows: rate(last.time) <= SLOWER * fastest,
    curves: fermentationCurves(part),
  };
}

function forecast({ begin, length, slows, curves: [best, other] }: Outlook, target: number): Reached {
  const refusal = (reason: Reason): Refusal => new Refusal(slows ? reason : { kind: "not-slowing" });
  if (!best) throw refusal({ kind: "no-curve" });

  const ahead = ({ family, parameters }: FermentationCurve, p = parameters): number =>
    family.timeOf(target, p) - length;
  const within = 2 * best.standardError(finalOf);
  if (best.final - within > target && !(other && ahead(other) >= 0 && other.weight > UNLIKELY))
    throw refusal({
      kind: "levels-off-above",
      final: gravityOfPoints(best.final),
      within: within / 1000,
      target: gravityOfPoints(target),
    });
  const days = Math.max(0, ahead(best)); // if the last readings lie above the curve, it is due
  const standardError = Math.hypot(
    best.standardError((p) => ahead(best, p)),
    other ? ahead(other) - days : 0,
  );
  const most = Math.max(VAGUE.days, VAGUE.share * days);
  if (!(2 * standardError <= most) || days > length) throw refusal({ kind: "forecast-vague", days, length });
  return { time: begin + length + days, standardError };
}

/** The drawn curve ends this many points above its final level. */
const ENDED = 0.2;
const COURSE_STEPS = 60;

/**
 * The likely further course of a fermentation, by the likelier of the two curves: from the last reading to where it
 * levels off, but no further ahead than the log is long.
 *
 * @throws Refusal if the log cannot carry a forecast
 */
export function courseOf(log: Fermentation): readonly Reading[] {
  const { begin, length, slows, curves } = outlookOf(lastOf(log.parts));
  if (!slows) throw new Refusal({ kind: "not-slowing" });
  const [best] = curves;
  if (!best) throw new Refusal({ kind: "no-curve" });
  const at = best.family.curve(best.parameters);
  const course: Reading[] = [];
  for (let i = 0; i <= COURSE_STEPS; i++) {
    const time = length * (1 + i / COURSE_STEPS);
    const gravity = at(time);
    course.push({ time: begin + time, gravity });
    if (gravity <= best.final + ENDED) break;
  }
  return course;
}
