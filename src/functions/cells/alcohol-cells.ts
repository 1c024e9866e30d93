import { alcoholByVolume, methods, type Method } from "../../core/beer/alcohol-methods.js";
import {
  apparentAttenuation,
  attenuationRange,
  finalExtract,
  realAttenuation,
} from "../../core/beer/attenuation.js";
import { beerByExtracts, tellBeer } from "../../core/beer/beer.js";
import { energy } from "../../core/beer/energy.js";
import type { Listener } from "../../core/steps.js";
import { choiceOr, measurement, optionalNumber } from "../contract/argument.js";
import { elementwise } from "../contract/define.js";
import {
  finalGravity,
  gravity,
  readGravity,
  scale,
  writeGravity,
  type GravityScale,
} from "../arguments/gravity-argument.js";
import { MIN_PERCENT, readPercent } from "../arguments/percent.js";

export const pair = {
  original: gravity("original gravity", "Original gravity: SG (1.048 or 1048), or °P (see scale)."),
  final: finalGravity("final gravity", "Final gravity: SG (1.012 or 1012), or °P (see scale)."),
};

export const pairScale = { scale: scale("How both gravities are written") };

interface Pair {
  readonly original: number;
  readonly final: number;
  readonly scale: GravityScale;
}

/** Original and apparent extract, °P. */
const extracts = ({ original, final, scale }: Pair, to?: Listener): readonly [number, number] => [
  readGravity(original, scale, "original gravity", to),
  readGravity(final, scale, "final gravity", to),
];

export const abvMethod = choiceOr<Method>("BALLING", {
  label: "method",
  description: '"BALLING", "QUOTIENT", "DUTY-UK" or "RULE". If omitted, "BALLING".',
  from: methods,
});

const BALLING =
  "Balling's mass balance (2.0665 g of extract give 1 g of alcohol) closed by Tabarié's density of beer, with the " +
  "density of ethanol of OIML R 22, solved for the real extract. Yields scatter between fermentations, so no such " +
  "method is better than about ±0.15 to 0.3 % vol. ";

export const LABEL =
  "Not for a label or a duty return as it stands: there the law of your country and a licensed laboratory decide. And no " +
  "number here says who may drive.";

export const ABV = elementwise(
  {
    name: "ABV",
    topic: "Alcohol and attenuation",
    question: "How strong is it, by volume?",
    summary: "Alcohol by volume from original and final gravity.",
    returns: "% vol at 20 °C, as a number: 4.7 is 4.7 % vol.",
    examples: [
      { formula: "GYLE.ABV(1.048,1.012)", says: "About 4.7 % vol." },
      { formula: 'GYLE.ABV(12,3.1,,"P")', says: "The same from °P." },
      {
        formula: 'GYLE.ABV(1.048,1.012,"DUTY-UK")',
        says: "By the UK duty factors, before rounding down to 0.1.",
      },
    ],
    method:
      `"BALLING" (default): ${BALLING}"QUOTIENT": Balling's attenuation quotient, original 6 to 30 °P. "DUTY-UK": factors of the UK ` +
      'beer duty notice by degrees of gravity lost, up to 100.7. "RULE": 131.25 times the difference (common practice, no source).',
    uncertainty: { by: "PLUSMINUS.ABV" },
    caution: LABEL,
  },
  {
    ...pair,
    method: abvMethod,
    ...pairScale,
  },
  ({ method, ...gravities }, to) => alcoholByVolume(...extracts(gravities, to), method, to),
);

export const ABW = elementwise(
  {
    name: "ABW",
    topic: "Alcohol and attenuation",
    question: "How strong is it, by weight?",
    summary: "Alcohol by weight from original and final gravity.",
    returns: "% m/m, as a number of percent.",
    examples: [{ formula: "GYLE.ABW(1.048,1.012)", says: "About 3.7 % m/m." }],
    method: BALLING,
    caution: LABEL,
  },
  { ...pair, ...pairScale },
  (gravities, to) => {
    const beer = beerByExtracts(...extracts(gravities, to));
    tellBeer(beer, ["realExtract", "abw"], to);
    return beer.abw;
  },
);

export const ATTENUATION_APPARENT = elementwise(
  {
    name: "ATTENUATION.APPARENT",
    topic: "Alcohol and attenuation",
    question: "How far down did it ferment?",
    summary: "Apparent attenuation: the share of the original extract that is gone, by hydrometer.",
    returns: "%, as a number of percent; above 100 where beer is lighter than water.",
    examples: [{ formula: "GYLE.ATTENUATION.APPARENT(1.048,1.012)", says: "About 74 %." }],
    uncertainty: { by: "PLUSMINUS.ATTENUATION" },
    method:
      "100·(original − final)/original, both in °P. Alcohol makes beer lighter, so it looks more attenuated than it is.",
  },
  { ...pair, ...pairScale },
  (gravities, to) => apparentAttenuation(...extracts(gravities, to), to),
);

export const ATTENUATION_REAL = elementwise(
  {
    name: "ATTENUATION.REAL",
    topic: "Alcohol and attenuation",
    question: "How much of the extract really fermented?",
    summary: "Real attenuation: the share of the original extract that has fermented.",
    returns: "%, as a number of percent.",
    examples: [{ formula: "GYLE.ATTENUATION.REAL(1.048,1.012)", says: "About 61 %." }],
    uncertainty: { by: "PLUSMINUS.ATTENUATION" },
    method: `Real degree of fermentation, ASBC Beer-6: extract fermented over extract fermented and left. ${BALLING}`,
  },
  { ...pair, ...pairScale },
  (gravities, to) => {
    const beer = beerByExtracts(...extracts(gravities, to));
    tellBeer(beer, ["realExtract", "abw"], to);
    return realAttenuation(beer, to);
  },
);

export const EXTRACT_REAL = elementwise(
  {
    name: "EXTRACT.REAL",
    topic: "Alcohol and attenuation",
    question: "How much extract is left in the beer?",
    summary: "Real extract: what is left in the beer, with the lightness of alcohol taken out.",
    returns: "°P: grams in 100 g of beer.",
    examples: [{ formula: "GYLE.EXTRACT.REAL(1.048,1.012)", says: "About 4.8 °P." }],
    method: BALLING,
  },
  { ...pair, ...pairScale },
  (gravities, to) => {
    const beer = beerByExtracts(...extracts(gravities, to));
    tellBeer(beer, ["abw", "realExtract"], to);
    return beer.realExtract;
  },
);

export const FINAL_EXPECTED = elementwise(
  {
    name: "FINAL.EXPECTED",
    topic: "Alcohol and attenuation",
    question: "Where should it finish?",
    summary: "Gravity at which a wort has reached an apparent attenuation.",
    returns: "Gravity, written as the original is.",
    examples: [
      { formula: "GYLE.FINAL.EXPECTED(1.048,75)", says: "Where a yeast that attenuates to 75 % would stop." },
    ],
    method: "Original extract times (1 − attenuation/100), in °P. Attenuation 0 counts as an empty cell.",
    caution: "An expectation, not a measurement: never bottle on it. Sugar left in a bottle can burst it.",
  },
  {
    original: pair.original,
    attenuation: measurement({
      label: "attenuation",
      description: `Apparent attenuation, %, ${MIN_PERCENT} to ${attenuationRange.max}: write 75 for 75 %, not 0.75.`,
    }),
    scale: scale("How the original gravity and the result are written"),
  },
  ({ original, attenuation, scale }, to) => {
    const extract = readGravity(original, scale, "original gravity", to);
    return writeGravity(finalExtract(extract, readPercent(attenuation, "attenuation"), to), scale, to);
  },
);

export const ENERGY = elementwise(
  {
    name: "ENERGY",
    topic: "Alcohol and attenuation",
    question: "How much energy is in a glass?",
    summary: "Energy of a beer from original and final gravity.",
    returns: "kcal, in 100 mL if no volume is given.",
    examples: [{ formula: "GYLE.ENERGY(1.048,1.012,330)", says: "kcal in a bottle of 330 mL." }],
    method: `ASBC Beer-33: 6.9 kcal per gram of alcohol, 4 per gram of real extract less 0.1 % of ash. ${BALLING}`,
    caution: "Not for a label: the law prescribes the factors and the analysis for nutrition labels.",
  },
  {
    original: pair.original,
    final: pair.final,
    millilitres: optionalNumber({
      label: "volume",
      description: "Volume of beer, mL. If omitted, 100.",
    }),
    ...pairScale,
  },
  ({ millilitres = 100, ...gravities }, to) => {
    const beer = beerByExtracts(...extracts(gravities, to));
    tellBeer(beer, ["realExtract", "abw"], to);
    return energy(beer, millilitres, to);
  },
);
