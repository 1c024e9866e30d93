import { beerByRefraction } from "../beer/beer.js";
import { extractOfGravity } from "../liquid/gravity.js";
import {
  brixByRefractometer,
  extractByRefractometer,
  type Refractometer,
} from "../instrument/refractometer.js";
import { extractTo } from "../liquid/scales.js";
import { exactly, normal, toNearest, rectangular, type Model, type Quantity } from "./uncertainty.js";
import { DEFAULT_TEMPERATURE_HALF_WIDTH, type ScaleAccuracy } from "./reading-uncertainty.js";

/**
 * Published constants give factors from 1.00 to 1.045, so the true one may differ this much from the default of 1.04.
 */
export const UNKNOWN_FACTOR_HALF_WIDTH = 0.04;

/**
 * Standard uncertainty of a factor found from a brewer's own worts with hand instruments. An expectation; no source
 * measured it.
 */
const OWN_FACTOR_STANDARD_UNCERTAINTY = 0.015;

/**
 * Largest difference between linear interpolation or fits of the international table of 1936 and ISO 1743 at 30 °C,
 * °Bx.
 */
const TABLE_HALF_WIDTH = 0.013;

/** How well an original gravity is known: one division of a hydrometer. Common practice, no source. */
const ORIGINAL_HALF_WIDTH = 0.001; // SG

/**
 * Largest deviation of this kind of refraction model from the line that Šavel measured through a fermentation of 11.5
 * °P (Kvasný průmysl 17 (1971) 53–56, doi:10.18832/kp1971011; we read the abstract), °P of apparent extract.
 */
const MODEL_HALF_WIDTH = 0.24;

export type RefractometerName =
  | "reading to the nearest division"
  | "maker's error of the scale"
  | "temperature at the refractometer"
  | "temperature table"
  | "wort correction factor"
  | "original gravity"
  | "original reading to the nearest division"
  | "maker's error of the original reading"
  | "model of refraction";

/** What was measured before fermentation: the gravity (SG), or a reading of the same instrument in its own units. */
export type Original = { readonly gravity: number } | { readonly reading: number };

/** A refractometer reading, and how well its inputs are known. */
export interface RefractometerReading {
  /** In units of the scale. */
  readonly reading: number;
  /** Temperature of the prism, °C; not needed if the instrument compensates. */
  readonly tC?: number | undefined;
  readonly refractometer: Refractometer;
  readonly accuracy: ScaleAccuracy;
  readonly factor: Pick<Quantity, "standardUncertainty" | "distribution">;
  /** Omitted for wort before fermentation. */
  readonly original?: Original | undefined;
}

/** Uncertainty of the customary factor, and of one that a brewer found. */
export const factorAsUsual = rectangular(0, UNKNOWN_FACTOR_HALF_WIDTH);
export const factorAsFound = normal(0, OWN_FACTOR_STANDARD_UNCERTAINTY);

/**
 * Gravity by refractometer, computed by `extractByRefractometer` for wort and `beerByRefraction` for beer, with the
 * quantities that make it uncertain. Wort and beer share one factor; errors of the scale at two readings are taken as
 * independent.
 */
export function refractometerModel(
  { reading, tC, refractometer, accuracy, factor, original }: RefractometerReading,
  scale: "SG" | "P",
): Model<RefractometerName> {
  const { compensates, wortFactor } = refractometer;
  const { division, maximumError } = accuracy;
  const [byGravity, byReading] = [
    original && "gravity" in original ? original.gravity : undefined,
    original && "reading" in original ? original.reading : undefined,
  ];
  return {
    of: {
      "reading to the nearest division": toNearest(reading, division),
      "maker's error of the scale": rectangular(0, maximumError),
      "temperature at the refractometer": compensates
        ? exactly(NaN)
        : rectangular(tC ?? NaN, DEFAULT_TEMPERATURE_HALF_WIDTH),
      "temperature table": compensates ? exactly(0) : rectangular(0, TABLE_HALF_WIDTH),
      "wort correction factor": { ...factor, value: wortFactor },
      "original gravity":
        byGravity === undefined ? exactly(NaN) : rectangular(byGravity, ORIGINAL_HALF_WIDTH),
      "original reading to the nearest division":
        byReading === undefined ? exactly(NaN) : toNearest(byReading, division),
      "maker's error of the original reading":
        byReading === undefined ? exactly(0) : rectangular(0, maximumError),
      "model of refraction": original ? rectangular(0, MODEL_HALF_WIDTH) : exactly(0),
    },
    result: (at) => {
      const k = at["wort correction factor"];
      const brix =
        brixByRefractometer(
          at["reading to the nearest division"] + at["maker's error of the scale"],
          refractometer,
          at["temperature at the refractometer"],
        ) + at["temperature table"];
      if (!original) return extractTo(extractByRefractometer(brix, k), scale);
      const before =
        "gravity" in original
          ? extractOfGravity(at["original gravity"])
          : extractByRefractometer(
              brixByRefractometer(
                at["original reading to the nearest division"] + at["maker's error of the original reading"],
                refractometer,
              ),
              k,
            );
      const beer = beerByRefraction(before, brix, k);
      return extractTo(extractOfGravity(beer.gravity) + at["model of refraction"], scale);
    },
  };
}
