import { nameKey } from "./name.js";
import type { Profile } from "./schema.js";
import { FORMAT_VERSION, type InstrumentSet } from "./set.js";

/** A profile overruled by a later edit. */
export interface Overruled {
  readonly name: string;
  /** The profile that was overruled. */
  readonly profile: Profile;
  /** The profile that replaced it; undefined if it was removed. */
  readonly by: Profile | undefined;
}

export interface Merged {
  readonly set: InstrumentSet;
  /** Everything from either side that was overruled, so that nothing is lost silently. */
  readonly overruled: readonly Overruled[];
}

interface Entry {
  readonly name: string;
  readonly at: number;
  readonly profile: Profile | undefined;
}

/** A profile without a date is older than any dated one. */
const time = (edited: string | undefined): number => (edited === undefined ? -Infinity : Date.parse(edited));

function entries(set: InstrumentSet): Map<string, Entry> {
  const all = new Map<string, Entry>();
  for (const { name, edited } of set.removed ?? [])
    all.set(nameKey(name), { name, at: time(edited), profile: undefined });
  for (const profile of set.instruments)
    all.set(nameKey(profile.name), { name: profile.name, at: time(profile.edited), profile });
  return all;
}

const same = (a: Profile | undefined, b: Profile | undefined): boolean =>
  JSON.stringify(a) === JSON.stringify(b);

/**
 * Merges two sets, profile by profile: the later edit wins, and a removal counts as an edit. Between edits of the same
 * time `theirs` wins, so two copies that merge each other agree only if told which is which.
 */
export function mergeSets(mine: InstrumentSet, theirs: InstrumentSet): Merged {
  const merged = entries(mine);
  const overruled: Overruled[] = [];
  for (const [key, their] of entries(theirs)) {
    const my = merged.get(key);
    const [stands, yields] = my && my.at > their.at ? [my, their] : [their, my];
    merged.set(key, stands);
    if (yields?.profile && !same(yields.profile, stands.profile))
      overruled.push({ name: yields.name, profile: yields.profile, by: stands.profile });
  }
  const all = [...merged.values()];
  const removed = all
    .filter((entry) => !entry.profile && Number.isFinite(entry.at))
    .map(({ name, at }) => ({ name, edited: new Date(at).toISOString() }));
  return {
    set: {
      version: FORMAT_VERSION,
      instruments: all.flatMap(({ profile }) => profile ?? []),
      ...(removed.length > 0 ? { removed } : {}),
    },
    overruled,
  };
}

/** Whether two sets are equal, in any order. */
export function sameSets(one: InstrumentSet, other: InstrumentSet): boolean {
  const [a, b] = [entries(one), entries(other)];
  return (
    a.size === b.size &&
    [...a].every(([key, { at, profile }]) => {
      const their = b.get(key);
      return their?.at === at && same(profile, their.profile);
    })
  );
}

const facts = (profile: Profile | undefined): string => JSON.stringify({ ...profile, edited: undefined });

/** Names of the instruments whose change affects readings. */
export function changedNames(before: InstrumentSet, after: InstrumentSet): string[] {
  const [old, now] = [entries(before), entries(after)];
  return [...new Set([...old.keys(), ...now.keys()])].flatMap((key) => {
    const [was, is] = [old.get(key), now.get(key)];
    return facts(was?.profile) === facts(is?.profile) ? [] : [(is ?? was)?.name ?? key];
  });
}
