import { shiftAt } from "../core/calibration.js";
import { extractRange, gravityRange } from "../core/gravity.js";
import { sampleTemperature, scaleMarks, sgMarks } from "../core/hydrometer.js";
import { attenuationRange } from "../core/attenuation.js";
import { brixRange } from "../core/refractive-index.js";
import { fromCelsius } from "../core/temperature.js";
import { findInstrument } from "../instruments/find.js";
import type { HydrometerProfile, Profile, RefractometerProfile } from "../instruments/schema.js";
import type { Extent } from "./chebyshev-fit.js";
import {
  atLeast,
  combined,
  conditionOn,
  constant,
  hinges,
  input,
  substituted,
  within,
  writtenGravity,
  type Condition,
  type Expression,
} from "./expression.js";
import { resultsOf, type Branch, type FoldedCall, type Input, type LiveFunction } from "./live-function.js";
import { NotLive } from "./not-live.js";
import { extractPiece } from "./pieces.js";
import { fitOne, fitTwo, type Fit, type Wanted } from "./smooth-fit.js";

const SG_BAR = 0.000_02;
const P_BAR = 0.005; // °P, the same in extract

/** How far off a gravity may be on each scale. */
const scaleBars: Readonly<Record<string, readonly [bar: number, unit: string]>> = {
  SG: [SG_BAR, "SG"],
  SG60: [SG_BAR, "SG"],
  P: [P_BAR, "°P"],
  BX: [P_BAR, "°Bx"],
  PTS: [1000 * SG_BAR, "points"],
  KGM3: [1000 * SG_BAR, "kg/m³"],
};

const word = (call: FoldedCall, parameter: string, otherwise: string): string => {
  const given = String(call.constants[parameter] ?? "")
    .trim()
    .toUpperCase();
  return given === "" || given === "0" ? otherwise : given;
};

const barOf = (scale: string): readonly [number, string] => scaleBars[scale] ?? [SG_BAR, "SG"];

/** What a smooth function needs to know of one of its numbers. */
interface Quantity extends Input {
  /** The number as the fit takes it. */
  readonly of: (raw: Expression) => Expression;
  readonly fitted: Extent;
}

const plain = (
  parameter: string,
  extent: Extent,
  whenEmpty: Input["whenEmpty"] = "blank-or-0",
): Quantity => ({
  parameter,
  whenEmpty,
  extent,
  of: (raw) => raw,
  fitted: extent,
});

const asGravity = (parameter: string, extent: Extent = gravityRange): Quantity => ({
  ...plain(parameter, extent),
  of: writtenGravity,
});

/** A gravity on the scale that the formula says. On °P, a final gravity of 0 has to be asked about. */
const gravityOn = (call: FoldedCall, parameter: string, isFinal = false): Quantity =>
  word(call, "scale", "SG") === "P"
    ? plain(parameter, extractRange, isFinal ? "blank" : "blank-or-0")
    : asGravity(parameter);

interface Recipe extends Wanted {
  readonly unit: string;
  /** At most two. The bounds of the second depend on the first. */
  readonly numbers: readonly Quantity[];
  /** Where the two are equal the result is 0, so that their difference is divided out. */
  readonly vanishes?: boolean;
}

type Recipes = Readonly<Record<string, (call: FoldedCall) => Recipe>>;

const pair = (call: FoldedCall): readonly Quantity[] => [
  gravityOn(call, "original"),
  gravityOn(call, "final", true),
];

const named = (call: FoldedCall): Profile | undefined => {
  const name = call.constants["instrument"];
  return name === undefined || name === 0 ? undefined : findInstrument(call.instruments, String(name));
};

function refractometerReading(call: FoldedCall, parameter: string): Quantity {
  const profile = named(call) as RefractometerProfile | undefined;
  if (profile?.compensates === false)
    throw new NotLive("the temperature correction of this refractometer is a table with corners");
  return profile?.scale === "SG"
    ? asGravity(parameter)
    : plain(parameter, { min: brixRange.min - 2, max: brixRange.max + 2 });
}

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

/** The numbers that are inputs, in their order. */
function inputsOf(call: FoldedCall, numbers: readonly Quantity[]): Quantity[] {
  const found = numbers.filter(({ parameter }) => call.inputs.includes(parameter));
  if (found.length < call.inputs.length)
    throw new NotLive("it takes more from cells than a polynomial of two numbers can hold");
  return found;
}

function fitted(call: FoldedCall, numbers: readonly Quantity[], recipe: Recipe): Fit {
  const results = resultsOf({ ...call, inputs: numbers.map(({ parameter }) => parameter) });
  const [x, y] = numbers;
  if (!x) throw new NotLive("it takes nothing from cells");
  const { bar, edge, vanishes, factor = vanishes ? combined(input(0), "-", input(1)) : undefined } = recipe;
  const fit = y
    ? fitTwo(results, x.fitted, y.fitted, { bar, ...(edge && { edge }), ...(factor && { factor }) })
    : fitOne(results, x.fitted, { bar });
  if (!fit) throw new NotLive(`no polynomial comes within ${recipe.bar} ${recipe.unit} of it`);
  const variables = numbers.map(({ of }, i) => of(input(i)));
  return {
    result: substituted(fit.result, variables),
    conditions: fit.conditions.map((condition) => conditionOn(condition, variables)),
  };
}

/** Mark at the level surface, with the scale put right: straight between check points, as the core has it. */
function markOf(profile: HydrometerProfile, reading: Expression): Expression {
  const { checks = [], meniscusAllowance: allowance = 0 } = profile;
  const corners = [...new Set(checks.map((check) => check.reading))].sort((a, b) => a - b);
  if (corners.length < checks.length) throw new NotLive("its check points contradict each other");
  const marks = corners.map((corner) => corner + allowance + shiftAt(corner, checks, allowance));
  return corners.length === 0 ? combined(reading, "+", constant(allowance)) : hinges(reading, corners, marks);
}

function hydrometer(call: FoldedCall): LiveFunction {
  const profile = named(call) as HydrometerProfile | undefined;
  const [bar, unit] = barOf(word(call, "scale", "SG"));
  const onSg = (profile?.scale ?? "SG") === "SG";
  const range: Extent = onSg ? sgMarks : scaleMarks[profile?.scale ?? "SG"];
  const span = {
    min: Math.max(range.min, profile?.lowest ?? -Infinity),
    max: Math.min(range.max, profile?.highest ?? Infinity),
  };
  const degrees = profile?.temperatureUnit ?? "C";
  const temperature = plain(
    "temperature",
    { min: fromCelsius(sampleTemperature.min, degrees), max: fromCelsius(sampleTemperature.max, degrees) },
    "refused",
  );
  const raw = onSg ? writtenGravity : (x: Expression): Expression => x;
  const reading: Quantity = {
    parameter: "reading",
    whenEmpty: onSg ? "blank-or-0" : "blank",
    extent: span,
    of: (x) => (profile ? markOf(profile, raw(x)) : raw(x)),
    fitted: range,
  };
  const numbers = inputsOf(call, [temperature, reading]);
  const bare = profile ? withFaultlessScale(call, profile) : call;
  if (!call.inputs.includes("reading") && profile)
    throw new NotLive("only its temperature comes from a cell");
  const fit = fitted(bare, numbers, { bar, unit, numbers, edge: onSg ? SG_BAR / 4 : P_BAR / 4 });
  const own = raw(input(numbers.findIndex(({ parameter }) => parameter === "reading")));
  const conditions: readonly Condition[] = [
    ...fit.conditions,
    ...(profile ? [atLeast(own, constant(span.min)), atLeast(constant(span.max), own)] : []),
  ];
  return { inputs: numbers, branches: [{ result: fit.result, conditions }], bar, unit };
}

/** The same instrument without what is done to a reading before the balance: that is straight lines, written out. */
function withFaultlessScale(call: FoldedCall, profile: HydrometerProfile): FoldedCall {
  const { name, kind, scale, temperatureUnit, calibrationTemperature, referenceTemperature } = profile;
  const faultless: Profile = {
    ...{ name, kind, scale, temperatureUnit, calibrationTemperature, read: "level" },
    ...(referenceTemperature === undefined ? {} : { referenceTemperature }),
  };
  return { ...call, instruments: { ...call.instruments, instruments: [faultless] } };
}

/** The original may be a gravity, or what the refractometer showed before fermentation: a fit for each. */
function refractometerBeer(call: FoldedCall): LiveFunction {
  const [bar, unit] = barOf(word(call, "scale", "SG"));
  const reading = refractometerReading(call, "reading");
  const onSg = (named(call) as RefractometerProfile | undefined)?.scale === "SG";
  const originals = onSg
    ? [asGravity("original")]
    : [plain("original", { min: 2, max: brixRange.max }), asGravity("original")];
  const branches = originals.map((original): Branch & { readonly numbers: readonly Quantity[] } => {
    const numbers = inputsOf(call, [original, reading]);
    const fit = fitted(call, numbers, { bar, unit, numbers });
    const place = numbers.indexOf(original);
    const asReading = !onSg && original === originals[0] && place >= 0;
    return { numbers, ...fit, ...(asReading ? { when: within(input(place), original.extent) } : {}) };
  });
  const useful = call.inputs.includes("original") ? branches : branches.slice(-1);
  const inputs = useful.at(-1)?.numbers ?? [];
  return { inputs, branches: useful, bar, unit };
}
