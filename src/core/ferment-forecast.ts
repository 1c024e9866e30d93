import type { Fermentation } from "./fermentation.js";
import { ratesOf } from "./ferment-rate.js";
import { passed } from "./ferment-stages.js";
import { fermentationCurves, finalOf, type FermentationCurve } from "./fermentation-curve.js";
import { gravityOfPoints } from "./points.js";
import { Refusal, type Reason } from "./refusal.js";

/** When a gravity is reached. */
export interface Reached {
  /** Days, as in the log. */
  readonly time: number;
  /** Standard error of a forecast, days; undefined where the log itself shows it. */
  readonly standardError: number | undefined;
}

/** Readings that a curve of four parameters takes, and two over. */
const LEAST_READINGS = 6;
/** Points by which gravity must have fallen before there is a curve to speak of. */
const LEAST_FALL = 5;
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
 * @param target points
 * @throws Refusal if the log began below, or cannot carry a forecast: too few readings, too little fall, a fall that has not
 *   begun to slow, a target below where the curve levels off, or an answer too vague
 */
export function reaches(log: Fermentation, target: number): Reached {
  const begins = log.parts[0]?.[0]?.gravity ?? NaN;
  const last = log.parts.at(-1)?.at(-1)?.gravity ?? NaN;
  if (last > target) return forecast(log, target);
  const when = passed(log.parts, target);
  if (!when)
    throw new Refusal({
      kind: "below-from-the-start",
      begins: gravityOfPoints(begins),
      target: gravityOfPoints(target),
    });
  return { time: when.time, standardError: undefined };
}

function forecast(log: Fermentation, target: number): Reached {
  const part = log.parts.at(-1) ?? [];
  const begin = part[0]?.time ?? NaN;
  const length = (part.at(-1)?.time ?? NaN) - begin;
  if (part.length < LEAST_READINGS)
    throw new Refusal({ kind: "too-few-readings", given: part.length, needed: LEAST_READINGS });
  const fall = (part[0]?.gravity ?? NaN) - (part.at(-1)?.gravity ?? NaN);
  if (!(fall >= LEAST_FALL)) throw new Refusal({ kind: "no-fall-yet", fall, needed: LEAST_FALL });
  const rates = ratesOf(
    part,
    part.map(({ time }) => time),
  );
  const slows = (rates.at(-1) ?? NaN) <= SLOWER * rates.reduce((most, rate) => Math.max(most, rate), 0);
  const refusal = (reason: Reason): Refusal => new Refusal(slows ? reason : { kind: "not-slowing" });
  const [best, other] = fermentationCurves(part);
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
