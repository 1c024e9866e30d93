import { ETHANOL_20 } from "../liquid/ethanol-density.js";
import { extractRange, gravityOfExtract } from "../liquid/gravity.js";
import {
  density as densityIs,
  fermentedTo,
  index,
  mixtureWith,
  original as originalIs,
  originalOf,
  type Mixture,
  type MixtureGuess,
} from "../liquid/mixture.js";
import { checkRange, type Range, type Reason, Refusal } from "../refusal.js";
import { step, type Listener } from "../steps.js";
import { brixRange, sucroseIndex } from "../liquid/refractive-index.js";
import { gravityOfDensity, wortDensity20 } from "../liquid/wort-density.js";

/** Wort before fermentation, with room for water that reads slightly below 0. */
export const originalRange: Range = { ...extractRange, of: "original extract", min: -0.1 };

// Readings scatter, so a result slightly below zero is returned as it is. No upper limit is needed: the strongest wort
// gives 0.17, less than the 0.2 that the refractive index data cover.
const MIN_ALCOHOL = -0.003; // mass fraction
const extractBounds = { min: -0.5, max: extractRange.max };

/** Source of the relation between alcohol and extract. */
export const BALLING_TABARIE = "Balling's mass balance, closed by Tabarié's density";

const SAME = 1e-6; // °P; finer than any reading

/** Whether two extracts are equal apart from rounding in their last digits. */
export const isSameExtract = (one: number, other: number): boolean => Math.abs(one - other) <= SAME;

/**
 * Apparent extract lost, °P; 0 if the two are equal.
 *
 * @throws Refusal if the final extract is above the original one
 */
export function extractLost(original: number, apparent: number): number {
  if (isSameExtract(original, apparent)) return 0;
  // Stryker disable next-line EqualityOperator: where they are equal, the line above has answered
  if (apparent > original)
    throw new Refusal({
      kind: "final-above-original",
      original: gravityOfExtract(original),
      final: gravityOfExtract(apparent),
    });
  return original - apparent;
}

/** Wort that has not started to ferment. */
const unfermented = (extract: number): Beer => ({
  originalExtract: extract,
  realExtract: extract,
  gravity: gravityOfExtract(extract),
  abw: 0,
  abv: 0,
});

/** Composition of a beer. Extracts are °P. */
export interface Beer {
  readonly originalExtract: number;
  readonly realExtract: number;
  /** Apparent specific gravity 20/20, as a hydrometer shows it. */
  readonly gravity: number;
  /** Alcohol, % by mass. */
  readonly abw: number;
  /** Alcohol, % by volume at 20 °C. */
  readonly abv: number;
}

const quantities = {
  originalExtract: ["original extract", "°P", BALLING_TABARIE],
  realExtract: ["real extract", "°P", BALLING_TABARIE],
  gravity: ["gravity", "SG", BALLING_TABARIE],
  abw: ["alcohol by mass", "% m/m", BALLING_TABARIE],
  abv: ["alcohol by volume at 20 °C", "% vol", "density of ethanol: OIML R 22"],
} as const satisfies Record<keyof Beer, readonly [what: string, unit: string, source: string]>;

/** Reports the composition of a beer to a listener, in the order given. */
export function tellBeer(of: Beer, which: readonly (keyof Beer)[], to: Listener | undefined): void {
  // Stryker disable next-line ConditionalExpression: saves each row of SEASON a loop without a listener
  if (!to) return;
  for (const quantity of which) {
    const [what, unit, source] = quantities[quantity];
    step(to, what, of[quantity], unit, source);
  }
}

function beer(m: Mixture): Beer {
  return {
    originalExtract: originalOf(m).value,
    realExtract: (100 * m.realExtract) / m.density.value,
    gravity: gravityOfDensity(m.density.value),
    abw: (100 * m.alcohol) / m.density.value,
    abv: (100 * m.alcohol) / ETHANOL_20,
  };
}

function accept(found: Mixture | undefined, tooMuch: () => Reason, tooLittle = tooMuch): Beer {
  if (!found || found.extract < extractBounds.min) throw new Refusal(tooMuch());
  if (found.p < MIN_ALCOHOL || found.extract > extractBounds.max) throw new Refusal(tooLittle());
  return beer(found);
}

/**
 * A beer from its original and final extract: Balling's mass balance closed by Tabarié's density, solved for both the
 * alcohol and the real extract. Yields differ between fermentations, so expect ±0.15 to 0.3 % vol.
 *
 * @param original original extract, °P, −0.1 to 30
 * @param apparent apparent extract of the beer, °P, −4 to 30: its gravity read as if it were wort
 * @throws Refusal outside these ranges, if the final extract is above the original one, or if it is so low that more
 *   would have fermented than there was
 */
export function beerByExtracts(original: number, apparent: number): Beer {
  checkRange(originalRange, original);
  const density = wortDensity20(apparent);
  if (extractLost(original, apparent) === 0) return unfermented(original);
  const found = fermentedTo(original, density, extractBounds, extractGuess(original, apparent));
  if (!found)
    throw new Refusal({
      kind: "final-too-low",
      original: gravityOfExtract(original),
      final: gravityOfExtract(apparent),
    });
  return {
    originalExtract: original,
    realExtract: (100 * found.realExtract) / density,
    gravity: gravityOfExtract(apparent),
    abw: (100 * found.alcohol) / density,
    abv: (100 * found.alcohol) / ETHANOL_20,
  };
}

/** Initial guess at the real extract from our own fit: within 0.1 °P of the solution up to 10 °P, within 1 °P anywhere. */
export const extractGuess = (original: number, apparent: number): number =>
  apparent + (original - apparent) * (0.1944 + 0.0005 * original - 0.0003 * apparent);

/** Initial guess: halfway through a fermentation. */
const halfway = (extract: number): MixtureGuess => ({ extract, p: extract / 200 });

/**
 * A fermenting or finished beer from its original extract and a refractometer reading.
 *
 * @param original original extract, °P, −0.1 to 30
 * @param brix reading referred to 20 °C, °Bx, 0 to 30
 * @param factor wort correction factor
 */
export function beerByRefraction(original: number, brix: number, factor: number): Beer {
  checkRange(originalRange, original);
  checkRange(brixRange, brix);
  const seen = index(sucroseIndex(brix), factor);
  const found = mixtureWith(originalIs(original), seen, halfway(original / 2));
  const gravity = (): number => gravityOfExtract(original);
  return accept(
    found,
    () => ({ kind: "readings-disagree", gravity: gravity(), reading: brix }),
    () => ({ kind: "refraction-above-original", reading: brix, original: gravity() }),
  );
}

/**
 * A beer of unknown original gravity, from a hydrometer and a refractometer reading of the same sample.
 *
 * Two close readings are subtracted, so errors are magnified: 0.1 °Bx moves the original extract by 0.27 °P, 0.001 SG
 * by 0.42 °P.
 *
 * @param apparent apparent extract by hydrometer, °P, −4 to 30
 * @param brix reading referred to 20 °C, °Bx, 0 to 30
 * @param factor wort correction factor
 * @throws Refusal if no beer gives both readings, or if the original extract would be below the present one
 */
export function beerByBoth(apparent: number, brix: number, factor: number): Beer {
  checkRange(brixRange, brix);
  const disagree = (): Reason => ({
    kind: "readings-disagree",
    gravity: gravityOfExtract(apparent),
    reading: brix,
  });
  const seen = index(sucroseIndex(brix), factor);
  const mixed = mixtureWith(densityIs(wortDensity20(apparent)), seen, halfway(apparent));
  const found = accept(mixed, disagree);
  if (isSameExtract(found.originalExtract, apparent)) return unfermented(apparent);
  if (found.originalExtract > originalRange.max || found.originalExtract < apparent)
    throw new Refusal(disagree());
  return found;
}
