import { brixRange } from "../../core/liquid/refractive-index.js";
import type { RefractometerProfile } from "../../instruments/schema.js";
import { input, isWithin } from "../fit/expression.js";
import type { Branch, FoldedCall, LiveFunction, WhenEmpty } from "./live-function.js";
import { NotLive } from "./not-live.js";
import {
  asGravity,
  toleranceOf,
  fitted,
  inputsOf,
  named,
  plainInput,
  word,
  type InputQuantity,
} from "./quantities.js";

export function refractometerReadingLive(call: FoldedCall, parameter: string): InputQuantity {
  const profile = named(call) as RefractometerProfile | undefined;
  if (profile?.compensates === false)
    throw new NotLive("the temperature correction of this refractometer is a table with corners");
  return profile?.scale === "SG"
    ? asGravity(parameter)
    : plainInput(parameter, { min: brixRange.min - 2, max: brixRange.max + 2 }, whenZero(call));
}

/** A reading of 0 counts beside a temperature, but a live formula ignores temperatures in cells. */
function whenZero({ constants, ignored = [] }: FoldedCall): WhenEmpty {
  if (ignored.includes("temperature")) return "blank";
  return (constants["temperature"] ?? 0) === 0 ? "blank-or-0" : "blank-not-0";
}

/** The original may be a gravity, or a refractometer reading before fermentation: one fit for each. */
export function refractometerBeer(call: FoldedCall): LiveFunction {
  const [tolerance, unit] = toleranceOf(word(call, "scale", "SG"));
  const reading = refractometerReadingLive(call, "reading");
  const onSg = (named(call) as RefractometerProfile | undefined)?.scale === "SG";
  const originals = onSg
    ? [asGravity("original")]
    : [plainInput("original", { min: 2, max: brixRange.max }), asGravity("original")];
  const branches = originals.map((original): Branch & { readonly numbers: readonly InputQuantity[] } => {
    const numbers = inputsOf(call, [original, reading]);
    const fit = fitted(call, numbers, { tolerance, unit, numbers });
    const place = numbers.indexOf(original);
    const asReading = !onSg && original === originals[0] && place >= 0;
    return { numbers, ...fit, ...(asReading ? { when: isWithin(input(place), original.interval) } : {}) };
  });
  const useful = call.inputs.includes("original") ? branches : branches.slice(-1);
  const inputs = useful.at(-1)?.numbers ?? [];
  return { inputs, branches: useful, tolerance, unit };
}
