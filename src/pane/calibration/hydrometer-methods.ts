import type { CheckPoint } from "../../core/instrument/check-point.js";
import { eachPair, type CalibrationFit } from "../../core/instrument/calibration-fit.js";
import { shiftAt } from "../../core/instrument/calibration.js";
import { checkPoint } from "../../core/instrument/check-reading.js";
import { slippedScale, unevenScale, type CheckedScale } from "../../core/instrument/scale-calibration.js";
import { hydrometerOf } from "../../instruments/as-core.js";
import type { HydrometerProfile } from "../../instruments/schema.js";
import {
  keptDecimals,
  markDecimals,
  rounded,
  scaleUnit,
  type CalibrationFound,
  type CalibrationMethod,
} from "./calibration-method.js";
import type { Pair } from "./calibration-pairs.js";
import { textWithUnit } from "./calibration-words.js";
import { fixed, signed } from "../parts/number-text.js";

const READ =
  "Read it in liquids of known strength, the way you always read it: water is 1.000 (0\u00a0°P), and sugar solutions can be weighed. Let them come to one temperature, without bubbles.";

/** Corrections at some readings, from which a line can be drawn. */
function correction(
  readings: readonly number[],
  checks: readonly CheckPoint[],
  allowance: number,
): { x: number; y: number }[] {
  const ends = [Math.min(...readings), Math.max(...readings)];
  const places = [...new Set([...ends, ...checks.map((check) => check.reading)])].sort((a, b) => a - b);
  return places.map((x) => ({ x, y: shiftAt(x, checks, allowance) }));
}

function foundOf(
  profile: HydrometerProfile,
  fit: CalibrationFit<CheckedScale>,
  says: readonly string[],
): CalibrationFound {
  const { scale, meniscusAllowance: allowance = 0 } = profile;
  const kept = keptDecimals[scale];
  const checks = fit.numbers.checks.map((check) => ({
    reading: rounded(check.reading, kept),
    true: rounded(check.true, kept),
  }));
  const figures = { decimals: markDecimals[scale], unit: scaleUnit[scale] };
  return {
    says,
    pairs: fit.pairs,
    warnings: fit.warnings,
    warned: figures,
    figures: { ...figures, readingDecimals: figures.decimals, truth: "Should show" },
    chart: {
      x: { of: "Reading", ...figures },
      y: { of: "Added", ...figures },
      points: fit.pairs.map((pair) => ({
        x: pair.reading,
        y: pair.true - pair.reading - allowance,
        fitted: pair.fitted - pair.reading - allowance,
      })),
      line: correction(
        fit.pairs.map(({ reading }) => reading),
        fit.numbers.checks,
        allowance,
      ),
    },
    profile: { ...profile, checks },
  };
}

export function hydrometerMethods(profile: HydrometerProfile): CalibrationMethod[] {
  const own = hydrometerOf(profile);
  const graduated = { ...own, lowest: profile.lowest, highest: profile.highest };
  const unit = scaleUnit[profile.scale];
  const decimals = markDecimals[profile.scale];
  const figure = (text: string): string => textWithUnit(text, unit);
  const points = (pairs: readonly Pair[]): CheckPoint[] =>
    eachPair(pairs, ({ reading, tC = NaN, extract }) => checkPoint(reading, tC, extract, own));
  const common = {
    columns: ["reading", "temperature", "strength"],
    strengthLabel: "True strength",
    sugar: true,
  } as const;
  return [
    {
      ...common,
      key: "shift",
      label: "One shift: the scale has slipped",
      says: `${READ} One reading is enough; three at different places show whether the shift is the same everywhere.`,
      find: (pairs) => {
        const fit = slippedScale(points(pairs), graduated);
        const { shift, standardDeviation: spread } = fit.numbers;
        return foundOf(profile, fit, [
          `Every reading is corrected by ${figure(signed(shift, decimals))}.`,
          ...(spread === undefined ? [] : [`The pairs scatter by ${figure(fixed(spread, decimals))}.`]),
        ]);
      },
    },
    {
      ...common,
      key: "checks",
      label: "Check points: the scale is uneven",
      says: `${READ} Between two check points the correction goes straight from one to the other, outside it stays.`,
      find: (pairs) => {
        const fit = unevenScale(points(pairs), graduated);
        const n = fit.numbers.checks.length;
        return foundOf(profile, fit, [`${n === 1 ? "1 check point" : `${n} check points`} along the scale.`]);
      },
    },
  ];
}
