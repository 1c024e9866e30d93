import {
  extractByHydrometer,
  plainHydrometer,
  sampleTemperature,
  scaleMarks,
  sgMarks,
} from "../core/instrument/hydrometer.js";
import { gravityOfExtract } from "../core/liquid/gravity.js";
import type { Range } from "../core/refusal.js";
import { answered, mustBeOneOf, inRange, withUsual } from "./answered.js";

/** What the maker says about a glass hydrometer. */
export interface HydrometerOptions {
  /** Unit of its scale: specific gravity, °P or °Bx. "SG" by default. */
  readonly scale?: "SG" | "P" | "BX";
  /** Temperature at which the scale is true, °C, 0 to 80. 20 by default; 60 °F is 15.56. */
  readonly calibrationC?: number;
  /** Temperature of the water to which an SG scale refers, °C, 0 to 80. By default that of calibrationC. */
  readonly referenceC?: number;
  /**
   * Added to a reading taken at the top of the meniscus, in units of the scale. 0 by default: read at the level
   * surface.
   */
  readonly meniscusAllowance?: number;
}

const usual: Required<Omit<HydrometerOptions, "referenceC">> & { readonly referenceC: number | undefined } = {
  scale: "SG",
  calibrationC: plainHydrometer.calibrationC,
  referenceC: undefined,
  meniscusAllowance: plainHydrometer.meniscusAllowance,
};

/** The same range as in instrument profiles. */
const allowance: Range = { of: "meniscus allowance", min: 0, max: 1, unit: "" };

/**
 * True gravity from a reading of a glass hydrometer. In finished beer this is the apparent gravity, as usual.
 *
 * The hydrometer displaces its own mass at every temperature; its glass expands by 25e-6 per K (ISO 1768:1975), wort as
 * a sucrose solution does.
 *
 * @param reading as read: 0.95 to 1.2 on an SG scale, −10 to 40 on one in °P or °Bx
 * @param sampleC temperature of the sample, °C, 0 to 80
 * @returns apparent specific gravity 20 °C/20 °C
 * @throws RangeError outside these ranges, and beyond −4 to 30 °P
 */
export function sgFromHydrometer(reading: number, sampleC: number, options: HydrometerOptions = {}): number {
  const given = withUsual(usual, options);
  const { scale, calibrationC, referenceC = calibrationC, meniscusAllowance } = given;
  mustBeOneOf("scale", scale, Object.keys(scaleMarks));
  return answered({ reading, sampleC, calibrationC, referenceC, meniscusAllowance }, () => {
    inRange(scale === "SG" ? sgMarks : scaleMarks[scale], "reading", reading);
    for (const [name, tC] of Object.entries({ sampleC, calibrationC, referenceC }))
      inRange(sampleTemperature, name, tC);
    inRange(allowance, "meniscusAllowance", meniscusAllowance);
    const hydrometer = { scale, calibrationC, referenceC, meniscusAllowance, checks: [] };
    return gravityOfExtract(extractByHydrometer(reading, sampleC, hydrometer));
  });
}
