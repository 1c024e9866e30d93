import { attenuationRange } from "../core/attenuation.js";
import { extractRange } from "../core/gravity.js";
import { scaleMarks, sgMarks } from "../core/hydrometer.js";
import type { Extent } from "./chebyshev-fit.js";
import { combined, input, type Expression } from "./expression.js";
import { hydrometer } from "./hydrometer-live.js";
import type { FoldedCall, LiveFunction } from "./live-function.js";
import { NotLive } from "./not-live.js";
import { extractPiece } from "./pieces.js";
import {
  asGravity,
  barOf,
  fitted,
  gravityOn,
  inputsOf,
  named,
  P_BAR,
  plain,
  word,
  type Quantity,
  type Recipe,
} from "./quantities.js";
import { refractometerBeer, refractometerReading } from "./refractometer-live.js";

type Recipes = Readonly<Record<string, (call: FoldedCall) => Recipe>>;

const pair = (call: FoldedCall): readonly Quantity[] => [
  gravityOn(call, "original"),
  gravityOn(call, "final", true),
];

/** Share of the extract that is gone: what is left of an attenuation once this is divided out has no pole. */
function attenuation(call: FoldedCall): Recipe {
  const extract = word(call, "scale", "SG") === "P" ? (x: Expression) => x : extractPiece().of;
  const [original, final] = [extract(input(0)), extract(input(1))];
  return {
    bar: 0.05,
    unit: "% of attenuation",
    numbers: pair(call),
    factor: combined(combined(original, "-", final), "/", original),
  };
}

const recipes: Recipes = {
  CONVERT: (call) => {
    const [bar, unit] = barOf(word(call, "to", "SG"));
    const from = word(call, "from", "SG");
    const extents: Readonly<Record<string, Extent>> = {
      SG60: { min: 0.98, max: 1.14 },
      PTS: { min: -20, max: 135 },
      KGM3: { min: 975, max: 1135 },
    };
    return {
      bar,
      unit,
      numbers: [from === "SG" ? asGravity("value") : plain("value", extents[from] ?? extractRange)],
    };
  },
  ABV: (call) => {
    if (word(call, "method", "BALLING") === "DUTY-UK")
      throw new NotLive("the UK duty factors go by steps, which is not smooth");
    return { bar: 0.005, unit: "% vol", numbers: pair(call), vanishes: true };
  },
  ABW: (call) => ({ bar: 0.005, unit: "% m/m", numbers: pair(call), vanishes: true }),
  "EXTRACT.REAL": (call) => ({ bar: P_BAR, unit: "°P", numbers: pair(call) }),
  "ATTENUATION.APPARENT": (call) => attenuation(call),
  "ATTENUATION.REAL": (call) => attenuation(call),
  ENERGY: (call) => {
    const millilitres = Number(call.constants["millilitres"] ?? 100) || 100;
    return {
      bar: (0.05 * millilitres) / 100,
      unit: "kcal",
      numbers: [asGravity("original"), asGravity("final")],
    };
  },
  "FINAL.EXPECTED": (call) => {
    const [bar, unit] = barOf(word(call, "scale", "SG"));
    return {
      bar,
      unit,
      numbers: [gravityOn(call, "original"), plain("attenuation", attenuationRange)],
    };
  },
  ORIGINAL: (call) => {
    const [bar, unit] = barOf(word(call, "scale", "SG"));
    return {
      bar,
      unit,
      numbers: [asGravity("hydrometer_gravity"), refractometerReading(call, "refractometer_reading")],
    };
  },
  "CO2.LATENT": (call) => ({
    bar: word(call, "unit", "G/L") === "VOL" ? 0.005 : 0.01,
    unit: word(call, "unit", "G/L") === "VOL" ? "volumes" : "g/L",
    numbers: [gravityOn(call, "gravity", true), gravityOn(call, "expected_final", true)],
    vanishes: true,
  }),
  FLOATING: (call) => {
    const [bar, unit] = barOf(word(call, "scale", "SG"));
    const profile = named(call);
    return {
      bar,
      unit,
      numbers: [profile?.scale === "P" ? plain("reading", scaleMarks.P) : asGravity("reading", sgMarks)],
    };
  },
  "REFRACTOMETER.WORT": (call) => {
    const [bar, unit] = barOf(word(call, "scale", "SG"));
    return { bar, unit, numbers: [refractometerReading(call, "reading")] };
  },
};

/** A call of a smooth function of one or two cells as polynomials; undefined for a function that is none of these. */
export function smoothFunction(given: FoldedCall): LiveFunction | undefined {
  // A refractometer that compensates needs no temperature, and takes no notice of one.
  const isRefractometer = given.name.startsWith("REFRACTOMETER.");
  const inputs = given.inputs.filter((parameter) => !isRefractometer || parameter !== "temperature");
  const call = { ...given, inputs };
  if (call.name === "HYDROMETER") return hydrometer(call);
  if (call.name === "REFRACTOMETER.BEER") return refractometerBeer(call);
  const recipe = recipes[call.name]?.(call);
  return recipe && liveOf(call, recipe);
}

function liveOf(call: FoldedCall, recipe: Recipe): LiveFunction {
  const numbers = inputsOf(call, recipe.numbers);
  const fit = fitted(call, numbers, recipe);
  return { inputs: numbers, branches: [fit], bar: recipe.bar, unit: recipe.unit };
}
