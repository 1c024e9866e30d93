import { co2In, co2Units, latentCo2, type Co2Unit } from "../../core/beer/latent-co2.js";
import { step } from "../../core/steps.js";
import { optionalNumber, unitOr } from "../contract/argument.js";
import { elementwise } from "../contract/define.js";
import { finalGravity, readGravity, scale } from "../arguments/gravity-argument.js";

export const CO2_LATENT = elementwise(
  {
    name: "CO2.LATENT",
    topic: "Alcohol and attenuation",
    question: "How much carbon dioxide would the sugar left still make?",
    summary:
      "Carbon dioxide that would still come of the extract between the present and the expected final gravity.",
    returns:
      'Grams in a litre of beer, or volumes if unit is "VOL". What the beer already holds dissolved comes on top.',
    examples: [
      {
        formula: "GYLE.CO2.LATENT(1.014,1.010)",
        says: "Four points to go: about 4 g/L on top of what is dissolved.",
      },
      {
        formula: 'GYLE.CO2.LATENT(1.014,GYLE.FINAL.EXPECTED(1.048,78),"VOL",1.048)',
        says: "In volumes, with the original gravity and the attenuation that the yeast is expected to reach.",
      },
    ],
    method:
      "Balling: 2.0665 g of extract give 1 g of alcohol, 0.9565 g of carbon dioxide and 0.11 g of yeast; the beer before and after is " +
      "found as ABV finds it. Without the original gravity the strongest wort covered, 30 °P, stands for it: the answer is then never " +
      "too low, and at most 6.5 % too high for wort from 5 °P. One volume is 1.96 g/L (the gas at 0 °C and 1 atm).",
    caution:
      "Carbon dioxide in a closed bottle is pressure, and a bottle that bursts maims. The answer is no better than the expected final " +
      "gravity: other microbes, more sugar, dry hops or a lively yeast go below it. Whether a bottle or keg holds is for its maker to " +
      "say; no number here tells you that beer may be packaged. Carbon dioxide already dissolved comes on top.",
  },
  {
    gravity: finalGravity("gravity", "Present gravity, degassed: SG (1.014 or 1014), or °P (see scale)."),
    expected_final: finalGravity(
      "expected final gravity",
      "Gravity at which fermentation is expected to end, by a forced fermentation or FINAL.EXPECTED.",
    ),
    unit: unitOr<Co2Unit>("G/L", {
      label: "unit",
      description: '"G/L" (grams in a litre, if omitted) or "VOL" (volumes of gas in one of beer).',
      from: co2Units,
    }),
    original: optionalNumber({
      label: "original gravity",
      description:
        "Original gravity, if known. If omitted, as for the strongest wort: at most 6.5 % too high.",
    }),
    scale: scale("How the gravities are written"),
  },
  ({ gravity, expected_final, unit, original, scale }, to) => {
    const grams = latentCo2(
      readGravity(gravity, scale, "gravity", to),
      readGravity(expected_final, scale, "expected final gravity", to),
      original === undefined ? undefined : readGravity(original, scale, "original gravity", to),
      to,
    );
    return unit === "VOL" ? step(to, "in volumes of gas", co2In(unit, grams), "volumes") : grams;
  },
);
