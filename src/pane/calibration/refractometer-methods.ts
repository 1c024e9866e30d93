import { waterReadingOf, wortFactorOf } from "../../core/instrument/refractometer-calibration.js";
import { refractometerOf } from "../../instruments/as-core.js";
import type { RefractometerProfile } from "../../instruments/schema.js";
import {
  keptDecimals,
  markDecimals,
  rounded,
  scaleUnit,
  type CalibrationMethod,
} from "./calibration-method.js";
import { textWithUnit } from "./calibration-words.js";
import { fixed, signed } from "../parts/number-text.js";

const FACTOR_DECIMALS = 4;

export function refractometerMethods(profile: RefractometerProfile): CalibrationMethod[] {
  const own = refractometerOf(profile);
  const { scale, compensates } = profile;
  const readingDecimals = markDecimals[scale];
  const reading = compensates ? (["reading"] as const) : (["reading", "temperature"] as const);
  const prism = compensates
    ? ""
    : " It does not compensate, so the temperature of the prism belongs to each reading.";
  return [
    {
      key: "factor",
      label: "Wort correction factor",
      says: `Read unfermented worts by refractometer and by a hydrometer whose reading is corrected; several, and not too thin ones.${prism} The reading on water should be right first.`,
      columns: [...reading, "strength"],
      strengthLabel: "By hydrometer",
      sugar: false,
      find: (pairs) => {
        const { numbers, pairs: fitted, warnings } = wortFactorOf(pairs, own);
        const { factor, standardDeviation: spread, ratios } = numbers;
        return {
          says: [
            `The wort correction factor is ${fixed(factor, 3)}; now it is ${fixed(profile.wortFactor, 3)}.`,
            ...(spread === undefined ? [] : [`The pairs' own factors scatter by ${fixed(spread, 3)}.`]),
          ],
          pairs: fitted,
          warnings,
          warned: { decimals: 3, unit: "" },
          figures: { decimals: 2, unit: "°P", readingDecimals, truth: "By hydrometer" },
          chart: {
            x: { of: "By hydrometer", decimals: 1, unit: "°P" },
            y: { of: "Shown over true", decimals: 3, unit: "" },
            points: fitted.map((pair, i) => ({ x: pair.true, y: ratios[i] ?? NaN, fitted: factor })),
            line: spanOf(fitted.map((pair) => pair.true)).map((x) => ({ x, y: factor })),
          },
          profile: { ...profile, wortFactor: rounded(factor, FACTOR_DECIMALS) },
        };
      },
    },
    {
      key: "water",
      label: "Reading on distilled water",
      says: `Put distilled water on the prism, wait until it has its temperature, and read; wipe it and read again.${prism}`,
      columns: reading,
      strengthLabel: "",
      sugar: false,
      find: (pairs) => {
        const { numbers, pairs: fitted, warnings } = waterReadingOf(pairs, own);
        const { waterReading, standardDeviation: spread } = numbers;
        const shown = textWithUnit(
          scale === "SG" ? fixed(waterReading, readingDecimals) : signed(waterReading, readingDecimals),
          scaleUnit[scale],
        );
        return {
          says: [
            `It shows ${shown} on water${compensates ? "" : " of 20 °C"}, which is taken off every reading.`,
            ...(spread === undefined ? [] : [`The readings scatter by ${fixed(spread, 2)} °Bx.`]),
          ],
          pairs: fitted,
          warnings,
          warned: { decimals: 2, unit: "°Bx" },
          figures: { decimals: 2, unit: "°Bx", readingDecimals, truth: "Water" },
          chart: {
            x: { of: "Reading number", decimals: 0, unit: "" },
            y: { of: "Above the middle", decimals: 2, unit: "°Bx" },
            points: fitted.map((pair, i) => ({ x: i + 1, y: pair.fitted, fitted: 0 })),
            line: spanOf(fitted.map((_, i) => i + 1)).map((x) => ({ x, y: 0 })),
          },
          profile: { ...profile, waterReading: rounded(waterReading, keptDecimals[scale]) },
        };
      },
    },
  ];
}

const spanOf = (values: readonly number[]): [number, number] => [Math.min(...values), Math.max(...values)];
