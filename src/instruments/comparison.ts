import { freeName, put } from "./edits.js";
import { findInstrument } from "./find.js";
import { LONGEST_NAME, type Profile } from "./schema.js";
import type { InstrumentSet } from "./set.js";

/** An instrument of a file beside what the workbook has under its name. */
export interface Incoming {
  readonly profile: Profile;
  readonly present: Profile | undefined;
  /** Nothing but the time of its edit differs from what is there. */
  readonly same: boolean;
}

/** What to do with an incoming instrument whose name is taken. */
export type Choice = "keep" | "replace" | "both";

const facts = (profile: Profile | undefined): string =>
  JSON.stringify(Object.entries({ ...profile, edited: undefined, name: undefined }).sort());

/** What a file of instruments would bring to a workbook. */
export function compareInstruments(set: InstrumentSet, file: InstrumentSet): Incoming[] {
  return file.instruments.map((profile) => {
    const present = findInstrument(set, profile.name);
    return { profile, present, same: present !== undefined && facts(present) === facts(profile) };
  });
}

/**
 * Takes the instruments of a file into a workbook's. What is not chosen stays as it is; new ones come in without asking.
 *
 * @param choose what to do where the workbook has something else under the same name
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

/** A free name that is not too long to be one. */
function besides(set: InstrumentSet, name: string): string {
  return freeName(set, name.slice(0, LONGEST_NAME - 5).trim());
}
