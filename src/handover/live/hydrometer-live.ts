import { shiftAt } from "../../core/instrument/calibration.js";
import { sampleTemperature, scaleMarks, sgMarks } from "../../core/instrument/hydrometer.js";
import { fromCelsius } from "../../core/liquid/temperature.js";
import type { HydrometerProfile, Profile } from "../../instruments/schema.js";
import type { Interval } from "../fit/interval.js";
import {
  atLeast,
  constant,
  piecewiseLinear,
  input,
  gravityAsWritten,
  type Expression,
} from "../fit/expression.js";
import type { FoldedCall, LiveFunction } from "./live-function.js";
import { NotLive } from "./not-live.js";
import {
  asGravity,
  toleranceOf,
  fitted,
  inputsOf,
  named,
  P_TOLERANCE,
  plainInput,
  SG_TOLERANCE,
  word,
  type InputQuantity,
  type Recipe,
} from "./quantities.js";

/** Mark at the level surface, corrected for the scale: linear between check points, as in the core. */
function markOf(profile: HydrometerProfile, corners: readonly number[], reading: Expression): Expression {
  const { checks = [], meniscusAllowance: allowance = 0 } = profile;
  const marks = corners.map((corner) => corner + allowance + shiftAt(corner, checks, allowance));
  return piecewiseLinear(reading, corners, marks);
}

/** Readings at which the correction of the scale has a corner; one check point shifts all readings alike. */
function cornersOf({ checks = [] }: HydrometerProfile): readonly number[] {
  const corners = [...new Set(checks.map((check) => check.reading))].sort((a, b) => a - b);
  if (corners.length < checks.length) throw new NotLive("its check points contradict each other");
  return corners.length > 1 ? corners : [];
}

export function hydrometer(call: FoldedCall): LiveFunction {
  const profile = named(call) as HydrometerProfile | undefined;
  const [tolerance, unit] = toleranceOf(word(call, "scale", "SG"));
  const onSg = (profile?.scale ?? "SG") === "SG";
  const range: Interval = onSg ? sgMarks : scaleMarks[profile?.scale ?? "SG"];
  const span = {
    min: Math.max(range.min, profile?.lowest ?? -Infinity),
    max: Math.min(range.max, profile?.highest ?? Infinity),
  };
  const degrees = profile?.temperatureUnit ?? "C";
  const temperature = plainInput(
    "temperature",
    { min: fromCelsius(sampleTemperature.min, degrees), max: fromCelsius(sampleTemperature.max, degrees) },
    "refused",
  );
  const raw = onSg ? gravityAsWritten : (x: Expression): Expression => x;
  const corners = profile ? cornersOf(profile) : [];
  const straightened = profile && corners.length > 0 && call.inputs.includes("reading") ? profile : undefined;
  const mark = (x: Expression): Expression => (straightened ? markOf(straightened, corners, x) : x);
  const reading: InputQuantity = {
    parameter: "reading",
    ...(onSg ? { whenEmpty: "blank-or-0" } : { whenEmpty: "blank-not-0", zeroBeside: "temperature" }),
    interval: span,
    of: (x) => mark(raw(x)),
    fitted: straightened ? range : span,
  };
  const numbers = inputsOf(call, [temperature, reading]);
  const fit = fitted(straightened ? withFaultlessScale(call, straightened) : call, numbers, {
    tolerance,
    unit,
    numbers,
    edge: onSg ? SG_TOLERANCE / 4 : P_TOLERANCE / 4,
  });
  const own = raw(input(numbers.indexOf(reading)));
  const graduations = [atLeast(own, constant(span.min)), atLeast(constant(span.max), own)];
  const conditions = [...fit.conditions, ...(straightened ? graduations : [])];
  return { inputs: numbers, branches: [{ result: fit.result, conditions }], tolerance, unit };
}

/** Uncertainty of a reading, at a constant temperature. */
export function sureOfHydrometer(call: FoldedCall): Recipe {
  if (call.inputs.includes("temperature"))
    throw new NotLive("how far off the temperature correction may be is known by steps, which is not smooth");
  const [tolerance, unit] = toleranceOf(word(call, "scale", "SG"));
  const scale = (named(call) as HydrometerProfile | undefined)?.scale ?? "SG";
  const reading =
    scale === "SG" ? asGravity("reading", sgMarks) : plainInput("reading", scaleMarks[scale], "blank-not-0");
  return { tolerance, unit, numbers: [reading] };
}

/** The same instrument without the corrections made before the balance: those are piecewise linear, and written out. */
function withFaultlessScale(call: FoldedCall, profile: HydrometerProfile): FoldedCall {
  const { name, kind, scale, temperatureUnit, calibrationTemperature, referenceTemperature } = profile;
  const faultless: Profile = {
    ...{ name, kind, scale, temperatureUnit, calibrationTemperature, read: "level" },
    ...(referenceTemperature === undefined ? {} : { referenceTemperature }),
  };
  return { ...call, instruments: { ...call.instruments, instruments: [faultless] } };
}
