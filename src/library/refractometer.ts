import { beerByBoth, beerByRefraction, type Beer } from "../core/beer/beer.js";
import {
  brixByRefractometer,
  extractByRefractometer,
  plainRefractometer,
  waterReadingRange,
  wortFactorRange,
} from "../core/instrument/refractometer.js";
import { gravityOfExtract } from "../core/liquid/gravity.js";
import { brixRange } from "../core/liquid/refractive-index.js";
import { answered, inRange, platoOf, withUsual } from "./answered.js";

/** Properties of a refractometer with a scale in °Bx. */
export interface RefractometerOptions {
  /**
   * °Bx reading of unfermented wort over its °P: 0.9 to 1.1. 1.04 by default, which is common practice, not a standard.
   */
  readonly wortFactor?: number;
  /**
   * Temperature of the prism, °C, 10 to 30, for an instrument without temperature compensation. Omit it for one that
   * compensates.
   */
  readonly prismC?: number;
  /** Reading on distilled water, °Bx. 0 by default. */
  readonly waterBrix?: number;
}

/** NaN: the instrument compensates. */
const usual: Required<RefractometerOptions> = {
  wortFactor: plainRefractometer.wortFactor,
  prismC: NaN,
  waterBrix: plainRefractometer.waterReading,
};

interface Reading {
  /** °Bx at 20 °C. */
  readonly brix: number;
  readonly wortFactor: number;
}

/** Passes the reading at 20 °C to a calculation, or says what is wrong with it or the options. */
function read<T>(
  brix: number,
  options: RefractometerOptions,
  others: Readonly<Record<string, number>>,
  calculate: (reading: Reading) => T,
): T {
  const { wortFactor, prismC, waterBrix } = withUsual(usual, options);
  return answered({ brix, ...others, wortFactor, prismC, waterBrix }, () => {
    inRange(brixRange, "brix", brix);
    inRange(wortFactorRange, "wortFactor", wortFactor);
    inRange(waterReadingRange.BX, "waterBrix", waterBrix);
    const compensates = options.prismC === undefined;
    const instrument = { scale: "BX", compensates, waterReading: waterBrix } as const;
    return calculate({ brix: brixByRefractometer(brix, instrument, prismC), wortFactor });
  });
}

/**
 * Extract of unfermented wort by refractometer. Without compensation the reading is referred to 20 °C by the
 * international table of 1936.
 *
 * @param brix as read, °Bx, 0 to 30
 * @returns extract, °P
 * @throws RangeError outside these ranges
 */
export function platoFromRefractometer(brix: number, options: RefractometerOptions = {}): number {
  return read(brix, options, {}, (at20) => extractByRefractometer(at20.brix, at20.wortFactor));
}

/**
 * Gravity of fermenting or finished beer by refractometer, as a hydrometer would show it: Balling's mass balance and
 * the refraction of alcohol and extract, solved for both.
 *
 * @param brix as read in the beer, °Bx, 0 to 30
 * @param originalSg specific gravity 20 °C/20 °C before fermentation
 * @returns apparent specific gravity 20 °C/20 °C
 * @throws RangeError outside these ranges, and if no beer of that original gravity gives the reading
 */
export function sgFromRefractometer(
  brix: number,
  originalSg: number,
  options: RefractometerOptions = {},
): number {
  return beerOf(brix, originalSg, options).gravity;
}

/**
 * Alcohol of fermenting or finished beer by refractometer.
 *
 * @param brix as read in the beer, °Bx, 0 to 30
 * @param originalSg specific gravity 20 °C/20 °C before fermentation
 * @returns % by volume at 20 °C
 * @throws RangeError outside these ranges, and if no beer of that original gravity gives the reading
 */
export function abvFromRefractometer(
  brix: number,
  originalSg: number,
  options: RefractometerOptions = {},
): number {
  return beerOf(brix, originalSg, options).abv;
}

/**
 * Original gravity, if nobody recorded it, from a hydrometer and a refractometer reading of one sample. Two close
 * readings are subtracted: 0.1 °Bx moves it by 0.27 °P, 0.001 SG by 0.42 °P.
 *
 * @param sg apparent specific gravity 20 °C/20 °C, by a corrected hydrometer
 * @param brix as read in the same sample, °Bx, 0 to 30
 * @returns specific gravity 20 °C/20 °C before fermentation
 * @throws RangeError outside these ranges, and if no beer gives both readings
 */
export function originalSgFromBoth(sg: number, brix: number, options: RefractometerOptions = {}): number {
  return read(brix, options, { sg }, (at20) =>
    gravityOfExtract(beerByBoth(platoOf("sg", sg), at20.brix, at20.wortFactor).originalExtract),
  );
}

function beerOf(brix: number, originalSg: number, options: RefractometerOptions): Beer {
  return read(brix, options, { originalSg }, (at20) =>
    beerByRefraction(platoOf("originalSg", originalSg), at20.brix, at20.wortFactor),
  );
}
