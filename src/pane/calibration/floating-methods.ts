import { eachPair } from "../../core/instrument/calibration-fit.js";
import { floatingCalibration } from "../../core/instrument/floating-calibration.js";
import { extractTo } from "../../core/liquid/scales.js";
import type { FloatingProfile } from "../../instruments/schema.js";
import {
  keptDecimals,
  markDecimals,
  rounded,
  scaleUnit,
  type CalibrationMethod,
} from "./calibration-method.js";
import { textWithUnit } from "./calibration-words.js";
import { fixed } from "../parts/number-text.js";

export function floatingMethods(profile: FloatingProfile): CalibrationMethod[] {
  const { scale } = profile;
  const figures = { decimals: markDecimals[scale], unit: scaleUnit[scale] };
  const kept = keptDecimals[scale];
  return [
    {
      key: "line",
      label: "A line through pairs",
      says: "Compare what it logs with a glass hydrometer whose reading is corrected: in water, in sugar solutions, or in the same beer as it ferments. One pair shifts, two make a line, three or more show how well it fits.",
      columns: ["reading", "strength"],
      strengthLabel: "True strength",
      sugar: true,
      find: (pairs) => {
        const points = eachPair(pairs, ({ reading, extract }) => ({
          reading,
          true: rounded(extractTo(extract, scale), kept),
        }));
        const { numbers, pairs: fitted, warnings } = floatingCalibration({ scale, pairs: points });
        const { line, scatter } = numbers;
        const x = fitted.map(({ reading }) => reading);
        return {
          says: [
            `The line rises ${fixed(line.slope, 3)} for each 1 that the instrument shows.`,
            ...(scatter === undefined
              ? []
              : [
                  `Readings scatter about it by ${textWithUnit(fixed(scatter, figures.decimals), figures.unit)}.`,
                ]),
          ],
          pairs: fitted,
          warnings,
          warned: figures,
          figures: { ...figures, readingDecimals: figures.decimals, truth: "True" },
          chart: {
            x: { of: "Reading", ...figures },
            y: { of: "Added", ...figures },
            points: fitted.map((pair) => ({
              x: pair.reading,
              y: pair.true - pair.reading,
              fitted: pair.fitted - pair.reading,
            })),
            line: [Math.min(...x), Math.max(...x)].map((at) => ({
              x: at,
              y: line.offset + (line.slope - 1) * at,
            })),
          },
          profile: {
            ...profile,
            pairs: points.map((pair) => ({ ...pair, reading: rounded(pair.reading, kept) })),
            // Pairs that happen to lie on a line do not guarantee that every reading will.
            ...(scatter !== undefined && rounded(scatter, kept) > 0
              ? { scatter: rounded(scatter, kept) }
              : {}),
          },
        };
      },
    },
  ];
}
