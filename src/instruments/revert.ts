// Undoing an edit, however long ago it was made.
import { EditRefused } from "./edit-refused.js";
import { changedNames } from "./merge.js";
import { nameKey } from "./name.js";
import { takeOut } from "./edits.js";
import type { InstrumentSet } from "./set.js";

const only = (set: InstrumentSet, key: string): InstrumentSet => ({
  ...set,
  instruments: set.instruments.filter(({ name }) => nameKey(name) === key),
  removed: [],
});

/**
 * The inverse of an edit: whatever that edit changed is restored in its old place, and nothing else changes.
 *
 * @param before the set that was edited
 * @param after the result of the edit
 * @returns undefined if the edit changed nothing; otherwise an edit that throws EditRefused if what it would undo has
 *   changed since
 */
export function revert(
  before: InstrumentSet,
  after: InstrumentSet,
): ((set: InstrumentSet, now: string) => InstrumentSet) | undefined {
  const names = changedNames(before, after);
  if (names.length === 0) return undefined;
  return (set, now) => {
    const since = names.filter((name) => {
      const key = nameKey(name);
      return changedNames(only(after, key), only(set, key)).length > 0;
    });
    if (since.length > 0)
      throw new EditRefused(
        `${since.map((name) => `"${name}"`).join(", ")} ${since.length === 1 ? "has" : "have"} been changed since, so nothing was undone.`,
      );
    const keys = new Set(names.map(nameKey));
    const without = names.reduce((so, name) => takeOut(so, name, now), set);
    const instruments = [...without.instruments];
    for (const [place, profile] of before.instruments.entries())
      if (keys.has(nameKey(profile.name))) instruments.splice(place, 0, { ...profile, edited: now });
    const back = new Set(instruments.map(({ name }) => nameKey(name)));
    const removed = without.removed?.filter(({ name }) => !back.has(nameKey(name)));
    return { ...without, instruments, ...(removed ? { removed } : {}) };
  };
}
