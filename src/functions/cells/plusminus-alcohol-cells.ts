import {
  abvModel,
  attenuationModel,
  attenuations,
  type Attenuation,
  type UncertainGravities,
} from "../../core/uncertainty/alcohol-uncertainty.js";
import { budgetOf, tellBudget } from "../../core/uncertainty/uncertainty.js";
import { gravityRange } from "../../core/liquid/gravity.js";
import { abvMethod, LABEL, pair, pairScale } from "./alcohol-cells.js";
import { choiceOr, companion, type ArgumentSpec } from "../contract/argument.js";
import { elementwise } from "../contract/define.js";
import { readGravity, readSg, type GravityScale } from "../arguments/gravity-argument.js";
import { GUM } from "./plusminus-reading-cells.js";

const plusMinus = (which: "original" | "final"): ArgumentSpec<number> =>
  companion({
    label: `uncertainty of the ${which} gravity`,
    description: `± of the ${which} gravity (k = 2), in its units, as PLUSMINUS.HYDROMETER gives it, such as 0.001.`,
    beside: `${which} gravity`,
    small: "0.000001",
    really: "it is exactly known",
  });

const args = {
  ...pair,
  original_plusminus: plusMinus("original"),
  final_plusminus: plusMinus("final"),
};

interface Given {
  readonly original: number;
  readonly final: number;
  readonly original_plusminus: number;
  readonly final_plusminus: number;
  readonly scale: GravityScale;
}

/** Both gravities on their own scale, refused if invalid, as in all functions. */
function gravities({
  original,
  final,
  original_plusminus,
  final_plusminus,
  scale,
}: Given): UncertainGravities {
  const own = (value: number, label: string): number =>
    scale === "SG" ? readSg(value, label, gravityRange) : readGravity(value, scale, label);
  return {
    original: own(original, "original gravity"),
    final: own(final, "final gravity"),
    originalPlusMinus: original_plusminus,
    finalPlusMinus: final_plusminus,
    scale,
  };
}

export const PLUSMINUS_ABV = elementwise(
  {
    name: "PLUSMINUS.ABV",
    topic: "How sure it is",
    question: "How sure is the alcohol?",
    summary: "Expanded uncertainty (k = 2) of the alcohol that ABV gives for the same gravities.",
    returns: "±, % vol.",
    examples: [
      { formula: "GYLE.PLUSMINUS.ABV(1.048,1.012,0.0014,0.0014)", says: "About ±0.4 % vol." },
      {
        formula:
          "GYLE.PLUSMINUS.ABV(1.048,1.012,GYLE.PLUSMINUS.HYDROMETER(1.048,20),GYLE.PLUSMINUS.HYDROMETER(1.012,20))",
        says: "From reading to alcohol.",
      },
    ],
    method:
      GUM +
      "Both gravities are taken as independent. If they share an error, such as the scale of one hydrometer, part of it cancels, " +
      "and the answer is an upper bound. Yield: what each method was off the distillation of 34 beers (USDA Bulletin 493, 1917; mean and " +
      "standard deviation), in proportion to the alcohol; 2.9 % of it for BALLING, as a standard uncertainty.",
    caution: LABEL,
  },
  { ...args, method: abvMethod, ...pairScale },
  ({ method, ...given }, to) => tellBudget(budgetOf(abvModel(gravities(given), method)), "% vol", to),
);

export const PLUSMINUS_ATTENUATION = elementwise(
  {
    name: "PLUSMINUS.ATTENUATION",
    topic: "How sure it is",
    question: "How sure is the attenuation?",
    summary:
      "Expanded uncertainty (k = 2) of what ATTENUATION.APPARENT or ATTENUATION.REAL gives for the same gravities.",
    returns: "±, in percent of the extract: points of attenuation.",
    examples: [
      { formula: "GYLE.PLUSMINUS.ATTENUATION(1.048,1.012,0.0014,0.0014)", says: "About ±3 points." },
      {
        formula: 'GYLE.PLUSMINUS.ATTENUATION(12,3.1,0.35,0.35,"REAL","P")',
        says: "The real one, from °P.",
      },
    ],
    method:
      GUM +
      "Both gravities are taken as independent. If they share an error, such as the scale of one hydrometer, part of it cancels, " +
      "and the answer is an upper bound, as long as the final gravity is above that of water. The apparent attenuation is what it is by " +
      "definition; for the real one the yield adds 0.6 % of it (Cutaia, Reid and Speers 2009, 532 fermentations).",
  },
  {
    ...args,
    kind: choiceOr<Attenuation>("APPARENT", {
      label: "kind of attenuation",
      description: '"APPARENT" (if omitted) or "REAL".',
      from: attenuations,
    }),
    ...pairScale,
  },
  ({ kind, ...given }, to) => tellBudget(budgetOf(attenuationModel(gravities(given), kind)), "%", to),
);
