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
  /** Days, as in the log. */
  readonly time: number;
  /** Standard error of a forecast, days; undefined where the log itself shows it. */
  readonly standardError: number | undefined;
}

/** Readings that a curve of four parameters takes, and two over. */
const MIN_READINGS = 6;
/** Points by which gravity must have fallen before there is a curve to speak of. */
const MIN_FALL = 5;
/** Share of the fastest rate at which a fall has begun to slow. */
const SLOWER = 0.8;
/** A curve with a smaller weight is not believed. */
const UNLIKELY = 0.05;
/** A forecast that may be off by more than this, at two standard errors, is none: days, or a share of the time ahead. */
const VAGUE = { days: 1, share: 0.5 };

/**
 * When a fermentation reached a gravity, or is going to.
 *
 * Reached: the last time that smooth gravity passed it, straight between readings. Otherwise the likelier of the logistic
 * and the Gompertz curve through the readings since sugar was last added says when. How far the two are apart counts as
 * uncertainty, along with that of the fit.
 *
 * @returns what tells of a target, points. It throws a Refusal if the log began below, or cannot carry a forecast: too few
 *   readings, too little fall, a fall that has not begun to slow, a target below where the curve levels off, or an answer too
 *   vague
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

/** How a part of a log goes on. */
interface Outlook {
  /** Days: of its first reading, and from there to the last. */
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
  const days = Math.max(0, ahead(best)); // where the last readings lie above the curve, it is due
  const standardError = Math.hypot(
    best.standardError((p) => ahead(best, p)),
    other ? ahead(other) - days : 0,
  );
  const most = Math.max(VAGUE.days, VAGUE.share * days);
  if (!(2 * standardError <= most) || days > length) throw refusal({ kind: "forecast-vague", days, length });
  return { time: begin + length + days, standardError };
}

/** Points above the level where a curve ends at which there is nothing more to draw. */
const ENDED = 0.2;
const COURSE_STEPS = 60;

/**
 * How a fermentation is going to go on, by the likelier of the two curves: from the last reading to where it levels off, and
 * not farther ahead than the log is long.
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
