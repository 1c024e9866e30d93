// Edits of a set of instruments. Every edit is dated, so that it can be merged with those of others.
import { EditRefused } from "./edit-refused.js";
import { findInstrument } from "./find.js";
import { nameKey } from "./name.js";
import type { Profile } from "./schema.js";
import type { InstrumentSet } from "./set.js";

const withoutName = <T extends { readonly name: string }>(list: readonly T[], name: string): T[] =>
  list.filter((entry) => nameKey(entry.name) !== nameKey(name));

/** Replaces the profile of the same name, or appends a new one. @param now ISO time of the edit */
export function put(set: InstrumentSet, profile: Profile, now: string): InstrumentSet {
  const dated = { ...profile, edited: now };
  const at = set.instruments.findIndex(({ name }) => nameKey(name) === nameKey(profile.name));
  return {
    ...set,
    instruments: at < 0 ? [...set.instruments, dated] : set.instruments.with(at, dated),
    ...(set.removed ? { removed: withoutName(set.removed, profile.name) } : {}),
  };
}

/** @throws EditRefused if another instrument already has the name */
function refuseTaken(set: InstrumentSet, name: string): void {
  if (findInstrument(set, name))
    throw new EditRefused(`Another instrument of this workbook is called "${name}" now. Give another name.`);
}

/**
 * Appends a new profile.
 *
 * @param now ISO time of the edit
 * @throws EditRefused if its name is taken
 */
export function add(set: InstrumentSet, profile: Profile, now: string): InstrumentSet {
  refuseTaken(set, profile.name);
  return put(set, profile, now);
}

/** Removes a profile, and records the removal. @param now ISO time of the edit */
export function takeOut(set: InstrumentSet, name: string, now: string): InstrumentSet {
  const gone = set.instruments.find((profile) => nameKey(profile.name) === nameKey(name));
  if (!gone) return set;
  return {
    ...set,
    instruments: withoutName(set.instruments, name),
    removed: [...withoutName(set.removed ?? [], name), { name: gone.name, edited: now }],
  };
}

/**
 * Renames a profile, keeping its place among the others.
 *
 * @param now ISO time of the edit
 * @throws EditRefused if it no longer exists, or the name is taken
 */
export function rename(set: InstrumentSet, from: string, to: string, now: string): InstrumentSet {
  const at = set.instruments.findIndex(({ name }) => nameKey(name) === nameKey(from));
  const profile = set.instruments[at];
  if (!profile) throw new EditRefused(`"${from}" is not in this workbook any more, so it was not renamed.`);
  if (nameKey(from) !== nameKey(to)) refuseTaken(set, to);
  const renamed = { ...profile, name: to, edited: now };
  if (nameKey(from) === nameKey(to)) return { ...set, instruments: set.instruments.with(at, renamed) };
  const removed = [
    ...(set.removed ?? []).filter(({ name }) => ![nameKey(from), nameKey(to)].includes(nameKey(name))),
    { name: profile.name, edited: now },
  ];
  return { ...set, instruments: set.instruments.with(at, renamed), removed };
}

/** A free name similar to the one wanted. */
export function freeName(set: InstrumentSet, wanted: string): string {
  const taken = new Set(set.instruments.map(({ name }) => nameKey(name)));
  if (!taken.has(nameKey(wanted))) return wanted;
  for (let n = 2; ; n++) {
    const name = `${wanted} ${n}`;
    if (!taken.has(nameKey(name))) return name;
  }
}
