import { beerByRefraction } from "../beer/beer.js";
import { extractOfGravity } from "../liquid/gravity.js";
import {
  brixByRefractometer,
  extractByRefractometer,
  type Refractometer,
} from "../instrument/refractometer.js";
import { extractTo } from "../liquid/scales.js";
import { exactly, scattered, toNearest, within, type Model, type Quantity } from "./uncertainty.js";
import { USUAL_TEMPERATURE_WITHIN, type Fineness } from "./reading-uncertainty.js";

/** Published constants give factors of 1.00 to 1.045 where nobody found their own: so far from 1.04 may the true one be. */
export const UNKNOWN_FACTOR_WITHIN = 0.04;

/** One standard deviation of a factor found from a brewer's own worts with hand tools. An expectation, no source measured it. */
const OWN_FACTOR_SCATTER = 0.015;

/** By how much straight lines and fits through the international table of 1936 differ from ISO 1743 at 30 °C, °Bx. */
const TABLE_WITHIN = 0.013;

/** A hydrometer's division: how well an original gravity is known. Common practice, no source. */
const ORIGINAL_WITHIN = 0.001; // SG

/**
 * By how much such a model of refraction is off the line that Šavel measured through a fermentation of 11.5 °P (Kvasný
 * průmysl 17 (1971) 53–56, doi:10.18832/kp1971011; the abstract was read), °P of apparent extract.
 */
const MODEL_WITHIN = 0.24;

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

/** What was known before fermentation: the gravity (SG), or a reading of the same instrument in its own units. */
export type Original = { readonly gravity: number } | { readonly reading: number };

/** A refractometer reading, and how well what belongs to it is known. */
export interface RefractometerReading {
  /** In units of the scale. */
  readonly reading: number;
  /** Of the prism, °C; an instrument that compensates needs none. */
  readonly tC?: number | undefined;
  readonly refractometer: Refractometer;
  readonly fineness: Fineness;
  readonly factor: Pick<Quantity, "standard" | "shape">;
  /** Left out for wort before fermentation. */
  readonly original?: Original | undefined;
}

/** A factor that is common practice, and one that a brewer found. */
export const factorAsUsual = within(0, UNKNOWN_FACTOR_WITHIN);
export const factorAsFound = scattered(0, OWN_FACTOR_SCATTER);

/**
 * Gravity by refractometer, as `extractByRefractometer` has it for wort and `beerByRefraction` for beer, with what makes
 * it uncertain. The factor is one and the same in wort and beer; errors of the scale at two readings are taken as
 * independent.
 */
export function refractometerModel(
  { reading, tC, refractometer, fineness, factor, original }: RefractometerReading,
  scale: "SG" | "P",
): Model<RefractometerName> {
  const { compensates, wortFactor } = refractometer;
  const { division, maximumError } = fineness;
  const [byGravity, byReading] = [
    original && "gravity" in original ? original.gravity : undefined,
    original && "reading" in original ? original.reading : undefined,
  ];
  return {
    of: {
      "reading to the nearest division": toNearest(reading, division),
      "maker's error of the scale": within(0, maximumError),
      "temperature at the refractometer": compensates
        ? exactly(NaN)
        : within(tC ?? NaN, USUAL_TEMPERATURE_WITHIN),
      "temperature table": compensates ? exactly(0) : within(0, TABLE_WITHIN),
      "wort correction factor": { ...factor, value: wortFactor },
      "original gravity": byGravity === undefined ? exactly(NaN) : within(byGravity, ORIGINAL_WITHIN),
      "original reading to the nearest division":
        byReading === undefined ? exactly(NaN) : toNearest(byReading, division),
      "maker's error of the original reading": byReading === undefined ? exactly(0) : within(0, maximumError),
      "model of refraction": original ? within(0, MODEL_WITHIN) : exactly(0),
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
