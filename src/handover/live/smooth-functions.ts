import { attenuationRange } from "../../core/beer/attenuation.js";
import { extractRange } from "../../core/liquid/gravity.js";
import { scaleMarks, sgMarks } from "../../core/instrument/hydrometer.js";
import type { Interval } from "../fit/interval.js";
import { energyOfVolume, energyRecipe } from "./energy-live.js";
import { combined, constant, input } from "../fit/expression.js";
import { latentCo2Live, latentRecipe } from "./co2-live.js";
import { hydrometer, sureOfHydrometer } from "./hydrometer-live.js";
import type { FoldedCall, LiveFunction } from "./live-function.js";
import { NotLive } from "./not-live.js";
import {
  asGravity,
  toleranceOf,
  fitted,
  gravityOn,
  inputsOf,
  named,
  P_TOLERANCE,
  plainInput,
  word,
  type InputQuantity,
  type Recipe,
} from "./quantities.js";
import { refractometerBeer, refractometerReadingLive } from "./refractometer-live.js";

type Recipes = Readonly<Record<string, (call: FoldedCall) => Recipe>>;

const pair = (call: FoldedCall): readonly InputQuantity[] => [
  gravityOn(call, "original"),
  gravityOn(call, "final", true),
];

/** An attenuation has a pole where the original gravity is that of water. */
const attenuation = (call: FoldedCall): Recipe => ({
  tolerance: 0.05,
  unit: "% of attenuation",
  numbers: pair(call),
  divisor: word(call, "scale", "SG") === "P" ? input(0) : combined(input(0), "-", constant(1)),
});

function alcohol(call: FoldedCall): Recipe {
  if (word(call, "method", "BALLING") === "DUTY-UK")
    throw new NotLive("the UK duty factors go by steps, which is not smooth");
  return { tolerance: 0.005, unit: "% vol", numbers: pair(call) };
}

/** A refractometer in wort. */
function prism(call: FoldedCall): Recipe {
  const [tolerance, unit] = toleranceOf(word(call, "scale", "SG"));
  return { tolerance, unit, numbers: [refractometerReadingLive(call, "reading")] };
}

const recipes: Recipes = {
  CONVERT: (call) => {
    const [tolerance, unit] = toleranceOf(word(call, "to", "SG"));
    const from = word(call, "from", "SG");
    const intervals: Readonly<Record<string, Interval>> = {
      SG60: { min: 0.98, max: 1.14 },
      PTS: { min: -20, max: 135 },
      KGM3: { min: 975, max: 1135 },
    };
    return {
      tolerance,
      unit,
      numbers: [from === "SG" ? asGravity("value") : plainInput("value", intervals[from] ?? extractRange)],
    };
  },
  ABV: alcohol,
  ABW: (call) => ({ tolerance: 0.005, unit: "% m/m", numbers: pair(call) }),
  "EXTRACT.REAL": (call) => ({ tolerance: P_TOLERANCE, unit: "°P", numbers: pair(call) }),
  "ATTENUATION.APPARENT": (call) => attenuation(call),
  "ATTENUATION.REAL": (call) => attenuation(call),
  ENERGY: energyRecipe,
  "FINAL.EXPECTED": (call) => {
    const [tolerance, unit] = toleranceOf(word(call, "scale", "SG"));
    return {
      tolerance,
      unit,
      numbers: [gravityOn(call, "original"), plainInput("attenuation", attenuationRange)],
    };
  },
  ORIGINAL: (call) => {
    const [tolerance, unit] = toleranceOf(word(call, "scale", "SG"));
    return {
      tolerance,
      unit,
      numbers: [asGravity("hydrometer_gravity"), refractometerReadingLive(call, "refractometer_reading")],
    };
  },
  "CO2.LATENT": latentRecipe,
  FLOATING: (call) => {
    const [tolerance, unit] = toleranceOf(word(call, "scale", "SG"));
    const profile = named(call);
    return {
      tolerance,
      unit,
      numbers: [profile?.scale === "P" ? plainInput("reading", scaleMarks.P) : asGravity("reading", sgMarks)],
    };
  },
  "PLUSMINUS.ABV": alcohol,
  "PLUSMINUS.HYDROMETER": sureOfHydrometer,
  "PLUSMINUS.REFRACTOMETER": prism,
  "REFRACTOMETER.WORT": prism,
};

/** A call of a smooth function of a few cells as polynomials; undefined for other functions. */
export function smoothFunction(given: FoldedCall): LiveFunction | undefined {
  // A refractometer that compensates needs no temperature, and ignores one.
  const isRefractometer = given.name.includes("REFRACTOMETER");
  const ignored = given.inputs.filter((parameter) => isRefractometer && parameter === "temperature");
  const inputs = given.inputs.filter((parameter) => !ignored.includes(parameter));
  const call = { ...given, inputs, ignored };
  if (call.name === "HYDROMETER") return hydrometer(call);
  if (call.name === "ENERGY" && inputs.includes("millilitres")) return energyOfVolume(call);
  if (call.name === "CO2.LATENT" && inputs.includes("original")) return latentCo2Live(call);
  if (call.name === "REFRACTOMETER.BEER") return refractometerBeer(call);
  const recipe = recipes[call.name]?.(call);
  return recipe && liveOf(call, recipe);
}

function liveOf(call: FoldedCall, recipe: Recipe): LiveFunction {
  const numbers = inputsOf(call, recipe.numbers);
  const fit = fitted(call, numbers, recipe);
  return { inputs: numbers, branches: [fit], tolerance: recipe.tolerance, unit: recipe.unit };
}
