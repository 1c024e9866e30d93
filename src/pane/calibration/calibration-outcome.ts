// From the pairs as typed to the result of a calibration.
import { sampleTemperature } from "../../core/instrument/hydrometer.js";
import { type Range, type Reason, Refusal } from "../../core/refusal.js";
import { pairExtract } from "../../core/instrument/refractometer-calibration.js";
import { refractometerTemperature } from "../../core/instrument/refractometer-temperature.js";
import type { Profile } from "../../instruments/schema.js";
import { checkProfile } from "../../instruments/set.js";
import type { CalibrationFound, CalibrationMethod } from "./calibration-method.js";
import { fieldKey, readPairs, type Column, type PairErrors, type Typed } from "./calibration-pairs.js";
import { floatingMethods } from "./floating-methods.js";
import { hydrometerMethods } from "./hydrometer-methods.js";
import { refractometerMethods } from "./refractometer-methods.js";

/** The methods by which an instrument can be calibrated. */
export function methodsOf(profile: Profile): readonly CalibrationMethod[] {
  switch (profile.kind) {
    case "hydrometer":
      return hydrometerMethods(profile);
    case "refractometer":
      return refractometerMethods(profile);
    case "floating":
      return floatingMethods(profile);
  }
}

export type CalibrationOutcome =
  | { readonly is: "empty" }
  /** Something is wrong: in some fields, or, if there is a `why`, between pairs. */
  | { readonly is: "wrong"; readonly errors: PairErrors; readonly why?: string }
  /** `numbers` are those of the pairs, as shown on the screen. */
  | { readonly is: "found"; readonly found: CalibrationFound; readonly numbers: readonly number[] };

/** Fields that a refusal about a whole pair refers to; by default the reading. */
const columnOf = new Map<Range, Column>([
  [sampleTemperature, "temperature"],
  [refractometerTemperature, "temperature"],
  [pairExtract, "strength"],
]);

const columnOfReason = (reason: Reason): Column =>
  (reason.kind === "out-of-range" ? columnOf.get(reason.range) : undefined) ?? "reading";

/** Renumbers two pairs that contradict each other as they are shown on the screen. */
function renumbered(reason: Reason, numbers: readonly number[]): Reason {
  if (reason.kind !== "pairs-contradict") return reason;
  const again = (pair: typeof reason.one): typeof reason.one => ({
    ...pair,
    place: (numbers[pair.place] ?? pair.place + 1) - 1,
  });
  return { ...reason, one: again(reason.one), other: again(reason.other) };
}

/** @param sentence wording of a refusal from the core */
export function outcomeOf(
  typed: Typed,
  profile: Profile,
  method: CalibrationMethod,
  sentence: (reason: Reason) => string,
): CalibrationOutcome {
  const { pairs, from, errors } = readPairs({ profile, columns: method.columns, typed, sentence });
  if (from.length === 0) return { is: "empty" };
  if (errors.size > 0) return { is: "wrong", errors };
  const numbers = from.map((row) => typed.rows.indexOf(row) + 1);
  try {
    const found = method.find(pairs);
    const checked = checkProfile(found.profile);
    if ("profile" in checked) return { is: "found", found, numbers };
    const why = checked.problems.map(
      ({ path, allowed }) => `${path.join(" ")}: give ${allowed ?? "nothing"}.`,
    );
    return { is: "wrong", errors, why: why.join(" ") };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const { reason } = error;
    const row = reason.kind === "in-pair" ? from[reason.pair] : undefined;
    if (reason.kind !== "in-pair" || !row)
      return { is: "wrong", errors, why: sentence(renumbered(reason, numbers)) };
    const column = columnOfReason(reason.because);
    return { is: "wrong", errors: new Map([[fieldKey(row.id, column), sentence(reason.because)]]) };
  }
}
