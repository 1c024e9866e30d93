import { alcoholByVolume, type Method } from "../beer/alcohol-methods.js";
import { apparentAttenuation, realAttenuation } from "../beer/attenuation.js";
import { beerByExtracts } from "../beer/beer.js";
import { checkRange, type Range } from "../refusal.js";
import { extractFrom } from "../liquid/scales.js";
import { COVERAGE, exactly, normal, type Model, type Quantity } from "./uncertainty.js";

// Deviations from alcohol by distillation of 34 beers whose wort was measured too, % vol: mean and standard deviation
// (Tolman and Riley, USDA Bulletin 493 (1917); tests/reference/alcohol-beer-usda493-paired.csv). The mean is not
// subtracted, because nobody knows whether it holds elsewhere, so it counts as uncertainty (GUM F.2.4.5).
const offDistillation: Record<Method, readonly [mean: number, deviation: number]> = {
  BALLING: [0.1, 0.13],
  QUOTIENT: [0.14, 0.13],
  "DUTY-UK": [0.06, 0.13],
  RULE: [0.1, 0.14],
};

/**
 * Mean alcohol of these beers, % vol. The scatter of yields is taken as proportional to the alcohol: our own choice.
 */
export const MEAN_OF_BEERS = 5.59;

/** Relative standard uncertainty of the alcohol due to the yield of a fermentation, by method. */
export const yieldScatter = (method: Method): number =>
  Math.hypot(...offDistillation[method]) / MEAN_OF_BEERS;

// Cutaia, Reid and Speers, J. Inst. Brew. 115 (2009) 318–327, Table VI, n = 532: (OE − RE)/(OE − AE) = 0.814 + 0.000862
// OE with a standard error of estimate of 0.00484. Relative, at 12 °P.
const REAL_SCATTER = 0.00484 / (0.814 + 0.000862 * 12);

export type AlcoholName = "original gravity" | "final gravity" | "yield of the fermentation";

type Scale = "SG" | "P";

/** Both gravities on one scale, with their expanded uncertainties (k = 2). */
export interface UncertainGravities {
  readonly original: number;
  readonly final: number;
  readonly originalPlusMinus: number;
  readonly finalPlusMinus: number;
  readonly scale: Scale;
}

export const plusMinusRange: Record<Scale, Omit<Range, "of">> = {
  SG: { min: 0, max: 0.05, unit: "SG" },
  P: { min: 0, max: 10, unit: "°P" },
};

/** @throws Refusal for uncertainties out of range */
function modelOf(
  { original, final, originalPlusMinus, finalPlusMinus, scale }: UncertainGravities,
  relation: Quantity,
  of: (original: number, apparent: number) => number,
): Model<AlcoholName> {
  checkRange({ ...plusMinusRange[scale], of: "uncertainty of the original gravity" }, originalPlusMinus);
  checkRange({ ...plusMinusRange[scale], of: "uncertainty of the final gravity" }, finalPlusMinus);
  return {
    of: {
      "original gravity": normal(original, originalPlusMinus / COVERAGE),
      "final gravity": normal(final, finalPlusMinus / COVERAGE),
      "yield of the fermentation": relation,
    },
    result: (at) =>
      of(extractFrom(at["original gravity"], scale), extractFrom(at["final gravity"], scale)) *
      (1 + at["yield of the fermentation"]),
  };
}

/** Alcohol by volume, computed by `alcoholByVolume`, with the quantities that make it uncertain. */
export function abvModel(gravities: UncertainGravities, method: Method): Model<AlcoholName> {
  return modelOf(gravities, normal(0, yieldScatter(method)), (original, apparent) =>
    alcoholByVolume(original, apparent, method),
  );
}

/** Apparent attenuation is exact by definition; real attenuation depends on the yield of the fermentation. */
export const attenuations = ["APPARENT", "REAL"] as const;
export type Attenuation = (typeof attenuations)[number];

/** Attenuation, computed by `apparentAttenuation` or `realAttenuation`, with the quantities that make it uncertain. */
export function attenuationModel(gravities: UncertainGravities, kind: Attenuation): Model<AlcoholName> {
  return kind === "APPARENT"
    ? modelOf(gravities, exactly(0), apparentAttenuation)
    : modelOf(gravities, normal(0, REAL_SCATTER), (original, apparent) =>
        realAttenuation(beerByExtracts(original, apparent)),
      );
}
