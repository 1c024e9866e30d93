import { freeName, put } from "./edits.js";
import { findInstrument } from "./find.js";
import { LONGEST_NAME, type Profile } from "./schema.js";
import type { InstrumentSet } from "./set.js";

/** An instrument from a file beside the workbook's instrument of the same name. */
export interface Incoming {
  readonly profile: Profile;
  readonly present: Profile | undefined;
  /** They differ in nothing but the time of their edit. */
  readonly same: boolean;
}

/** What to do with an incoming instrument whose name is taken. */
export type Choice = "keep" | "replace" | "both";

const facts = (profile: Profile | undefined): string =>
  JSON.stringify(Object.entries({ ...profile, edited: undefined, name: undefined }).sort());

/** Compares the instruments of a file with those of a workbook. */
export function compareInstruments(set: InstrumentSet, file: InstrumentSet): Incoming[] {
  return file.instruments.map((profile) => {
    const present = findInstrument(set, profile.name);
    return { profile, present, same: present !== undefined && facts(present) === facts(profile) };
  });
}

/**
 * Adds the instruments of a file to those of a workbook. Conflicts are resolved as chosen; new ones are added without
 * asking.
 *
 * @param choose what to do if the workbook has a different instrument of the same name
 * @param now ISO time of the edit
 */
export function takeIn(
  set: InstrumentSet,
  incoming: readonly Incoming[],
  choose: (incoming: Incoming) => Choice,
  now: string,
): InstrumentSet {
  let result = set;
  for (const { profile } of incoming) {
    // Looked up again: the workbook may have changed since the comparison was shown.
    const present = findInstrument(result, profile.name);
    const again: Incoming = { profile, present, same: facts(present) === facts(profile) };
    if (again.same) continue;
    const choice = present ? choose(again) : "replace";
    if (choice === "replace") result = put(result, profile, now);
    if (choice === "both") result = put(result, { ...profile, name: besides(result, profile.name) }, now);
  }
  return result;
}

/** A free name within the length limit. */
function besides(set: InstrumentSet, name: string): string {
  return freeName(set, name.slice(0, LONGEST_NAME - 5).trim());
}
