import { polynomial } from "../numeric/polynomial.js";
import { checkRange, type Range } from "../refusal.js";
import { waterDensity } from "./water-density.js";

/** Source of the thermal expansion of wort. */
export const SUCROSE_FORM = "density of sucrose solutions, ICUMSA SPS-4 form";

// Density of sucrose solutions by mass fraction w and τ = (t − 20 °C)/100, kg/m³. ICUMSA SPS-4 form, in Bubník, Kadlec,
// Urban, Bruhns, Sugar Technologists Manual (Bartens 1995) p. 164. We saw two transcriptions, not the printed page;
// they agree except for the last digit of b4 (−3.9643 or −3.9646, under 3e-6 kg/m³ at w = 0.3). Columns are powers of τ
// from 0.
// prettier-ignore
const [w1, w2, w3, w4, w5, w6] = [
  //   b         c1        c2        c3        c4
  [385.1761, -46.272,   59.7712, -47.2207, 18.3184], // w
  [135.3705,  -7.172,    7.2491, -21.6977, 12.3081], // w²
  [ 40.9299,   1.1597,  12.363,   27.6301], //          w³
  [ -3.9643,   5.1126, -35.4791], //                    w⁴
  [ 13.4853,  17.5254], //                              w⁵
  [-17.289], //                                         w⁶
] as const;

/** Sucrose solutions at one temperature: coefficients of the powers of w from 0. */
export type Sucrose = readonly [
  w0: number,
  w1: number,
  w2: number,
  w3: number,
  w4: number,
  w5: number,
  w6: number,
];

/** The range quoted by the source. */
export const wortTemperature: Range = { of: "wort temperature", min: 0, max: 100, unit: "°C" };

/**
 * Coefficients for a temperature.
 *
 * @param tC °C, 0 to 100
 * @throws Refusal outside that range
 */
export function sucroseAt(tC: number): Sucrose {
  checkRange(wortTemperature, tC);
  const tau = (tC - 20) / 100;
  return [
    waterDensity(tC),
    polynomial(w1, tau),
    polynomial(w2, tau),
    polynomial(w3, tau),
    polynomial(w4, tau),
    polynomial(w5, tau),
    polynomial(w6, tau),
  ];
}

const at20 = sucroseAt(20);

const densityOf = (c: Sucrose, w: number): number =>
  c[0] + w * (c[1] + w * (c[2] + w * (c[3] + w * (c[4] + w * (c[5] + w * c[6])))));

/**
 * Density of a sucrose solution by the formula alone.
 *
 * @param w mass fraction of sucrose, 0 to 0.7
 * @param tC temperature, °C, 0 to 100
 * @returns density, kg/m³
 */
export function sucroseDensity(w: number, tC: number): number {
  return densityOf(sucroseAt(tC), w);
}

/**
 * Density of a sucrose solution at its temperature, relative to that at 20 °C.
 *
 * The formula is up to 0.09 kg/m³ off the printed gravity tables at 20 °C, so only this ratio is used; the density at
 * 20 °C comes from the tables (wort-density).
 *
 * @param w mass fraction, −0.04 to 0.3
 * @returns ρ(w, t)/ρ(w, 20 °C)
 */
export function expansion(sucrose: Sucrose, w: number): number {
  return densityOf(sucrose, w) / densityOf(at20, w);
}
