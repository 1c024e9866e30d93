import { volumeRange } from "./amounts.js";
import { extractMass, wortMass, wortRange } from "./extract-mass.js";
import { gravityOfExtract } from "../liquid/gravity.js";
import { invert } from "../numeric/invert.js";
import { checkRange, Refusal } from "../refusal.js";
import { step, type Listener } from "../steps.js";
import { WATER_20 } from "../liquid/water-density.js";

// Volumes are litres at 20 °C, extracts °P, and `to` is a listener for the steps. Water and extract are balanced by
// mass, because neither volumes nor points of gravity add up.

const TOLERANCE = 1e-12; // kg of extract per litre of wort

/**
 * Strength of wort after boiling down, with no loss of extract.
 *
 * @param end volume after the boil
 * @returns °P
 * @throws Refusal if the volume would grow, or the wort would exceed 30 °P
 */
export function boiledExtract(volume: number, extract: number, end: number, to?: Listener): number {
  checkRange(volumeRange, end);
  if (end > volume) throw new Refusal({ kind: "volume-grows", volume, end });
  const found = extractMass(volume, extract, to);
  const boiled = invert((p) => extractMass(1, p), wortRange, found / end, TOLERANCE);
  return step(to, "extract after the boil", boiled, "°P");
}

/**
 * Volume to boil down to for a target strength.
 *
 * @returns litres at 20 °C
 * @throws Refusal if the target is weaker than the wort
 */
export function boiledVolume(volume: number, extract: number, target: number, to?: Listener): number {
  mustRise(extract, target);
  const found = extractMass(volume, extract, to);
  const wanted = step(to, "extract in a litre of the target", extractMass(1, target), "kg");
  return step(to, "volume to boil down to", found / wanted, "");
}

/**
 * Water that dilutes wort to a target strength.
 *
 * @returns litres of water at 20 °C
 * @throws Refusal if the target is stronger than the wort, or is water
 */
export function dilutionWater(volume: number, extract: number, target: number, to?: Listener): number {
  checkRange(wortRange, target);
  const mass = wortMass(volume, extract, to);
  const water = (1000 * mass * (extract / target - 1)) / WATER_20;
  // A trace of extract is water too: no finite amount thins wort that far.
  if (target > extract || target <= 0 || !Number.isFinite(water))
    throw new Refusal({
      kind: "target-not-below",
      gravity: gravityOfExtract(extract),
      target: gravityOfExtract(target),
    });
  return step(to, "water to add", water, "");
}

/**
 * Malt extract or sugar that raises wort to a target strength. Whatever is not extract in it counts as water.
 *
 * @param share kg of extract per kg of the addition
 * @returns kg of the addition
 * @throws Refusal if the target is weaker than the wort, or as strong as the addition
 */
export function fortifyingMass(
  volume: number,
  extract: number,
  target: number,
  share: number,
  to?: Listener,
): number {
  mustRise(extract, target);
  if (!(100 * share > target))
    throw new Refusal({ kind: "addition-too-weak", addition: 100 * share, target });
  step(to, "extract in a kilogram of the addition", share, "kg");
  const added = (wortMass(volume, extract, to) * (target - extract)) / (100 * share - target);
  return step(to, "addition", added, "kg");
}

/** One of the worts in a blend. */
export interface Portion {
  readonly litres: number;
  readonly extract: number;
}

/**
 * Strength of a blend of worts.
 *
 * @returns °P
 */
export function blendedExtract(portions: readonly Portion[], to?: Listener): number {
  let mass = 0;
  let extract = 0;
  for (const portion of portions) {
    mass += wortMass(portion.litres, portion.extract);
    extract += extractMass(portion.litres, portion.extract);
  }
  step(to, "mass of all worts", mass, "kg");
  step(to, "extract in all worts", extract, "kg");
  return step(to, "extract of the blend", (100 * extract) / mass, "°P");
}

function mustRise(extract: number, target: number): void {
  checkRange(wortRange, target);
  if (target < extract || target <= 0)
    throw new Refusal({
      kind: "target-not-above",
      gravity: gravityOfExtract(extract),
      target: gravityOfExtract(target),
    });
}
