import { nameKey } from "./name.js";
import type { Profile } from "./schema.js";
import type { InstrumentSet } from "./set.js";

/** The profile with a name, if there is one. */
export function findInstrument(set: InstrumentSet, name: string): Profile | undefined {
  const key = nameKey(name);
  return set.instruments.find((instrument) => nameKey(instrument.name) === key);
}
