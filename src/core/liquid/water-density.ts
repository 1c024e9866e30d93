import { polynomial } from "../numeric/polynomial.js";
import { checkRange, type Range } from "../refusal.js";

// Bettin and Spieweck, PTB-Mitteilungen 100 (1990) 195, as printed in IP Standard Methods 1998, appendix G, which
// states an uncertainty of 0.006 kg/m³. Chosen because the sucrose density formula is based on it; no other formula for
// water is used here.
const numerator = [
  999.83952, //        kg/m³
  16.952577, //        kg/m³/°C
  -7.9905127e-3, //    kg/m³/°C²
  -46.241757e-6, //    kg/m³/°C³
  105.84601e-9, //     kg/m³/°C⁴
  -281.03006e-12, //   kg/m³/°C⁵
];
const denominator = 16.887236e-3; // 1/°C

const waterTemperature: Range = { of: "water temperature", min: 0, max: 100, unit: "°C" };

/**
 * Density of air-free water at 101.325 kPa.
 *
 * @param tC temperature, °C, 0 to 100
 * @returns density, kg/m³
 * @throws Refusal outside 0–100 °C, and for NaN
 */
export function waterDensity(tC: number): number {
  checkRange(waterTemperature, tC);
  return polynomial(numerator, tC) / (1 + denominator * tC);
}

/** Density of water at the reference temperature of all our scales, kg/m³. */
export const WATER_20 = waterDensity(20);
