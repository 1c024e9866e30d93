import { extractRange, gravityOfExtract } from "../core/liquid/gravity.js";
import { extractFrom, extractTo, scales } from "../core/liquid/scales.js";
import { answered, inRange, mustBeOneOf, platoOf } from "./answered.js";

/**
 * Scales for the strength of wort. SG: apparent specific gravity 20 °C/20 °C. P, BX: percent of extract by mass, °P and
 * °Bx; the two are the same number. PTS: points, 1000·(SG − 1). SG60: apparent specific gravity 60 °F/60 °F. KGM3:
 * density at 20 °C, kg/m³.
 */
export type GravityUnit = "SG" | "P" | "BX" | "PTS" | "SG60" | "KGM3";

/**
 * Specific gravity of a wort from its extract, by NBS Circular C440, Table 114.
 *
 * @param plato extract, °P (grams per 100 g of wort), −4 to 30
 * @returns apparent specific gravity 20 °C/20 °C
 * @throws RangeError outside −4 to 30 °P
 */
export function sgFromPlato(plato: number): number {
  return answered({ plato }, () => gravityOfExtract(inRange(extractRange, "plato", plato)));
}

/**
 * Extract of a wort from its specific gravity: the inverse of `sgFromPlato`, verified to 1e-12.
 *
 * @param sg apparent specific gravity 20 °C/20 °C, about 0.985 to 1.129
 * @returns extract, °P; negative for beer that alcohol makes lighter than water
 * @throws RangeError outside that range
 */
export function platoFromSg(sg: number): number {
  return answered({ sg }, () => platoOf("sg", sg));
}

/**
 * Converts the strength of a wort to another scale.
 *
 * @param value in the scale `from`; at most 30 °P, and not below −4 °P
 * @returns in the scale `to`
 * @throws RangeError outside −4 to 30 °P, and for an unknown scale
 */
export function convertGravity(value: number, from: GravityUnit, to: GravityUnit): number {
  mustBeOneOf("from", from, scales);
  mustBeOneOf("to", to, scales);
  return answered({ value }, () => extractTo(extractFrom(value, from), to));
}
