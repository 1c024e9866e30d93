import { mergeSets, type Overruled } from "./merge.js";
import { readPart } from "./part.js";
import { InstrumentsRefused, type RefusedBecause } from "./refusal.js";
import { noInstruments, type InstrumentSet } from "./set.js";

/** A part in our namespace that could not be taken. It stays in the workbook as it is. */
export interface RefusedPart {
  readonly because: RefusedBecause;
  readonly problems: readonly string[];
  readonly xml: string;
}

/** What a workbook holds in the place of its instruments. */
export interface Stored {
  /** Those of all parts that can be read, together; undefined where there are parts but none can be read. */
  readonly set: InstrumentSet | undefined;
  readonly refused: readonly RefusedPart[];
  /** What gave way when several parts were brought together. */
  readonly overruled: readonly Overruled[];
}

/**
 * Instruments out of the parts that a workbook holds in our namespace. There is usually one; two people saving at a
 * time can leave several.
 */
export function storedInstruments(parts: readonly string[]): Stored {
  let set: InstrumentSet | undefined;
  const overruled: Overruled[] = [];
  const refused: RefusedPart[] = [];
  for (const xml of parts) {
    try {
      const merged = mergeSets(set ?? noInstruments, readPart(xml));
      set = merged.set;
      overruled.push(...merged.overruled);
    } catch (error) {
      if (!(error instanceof InstrumentsRefused)) throw error;
      refused.push({ because: error.because, problems: error.problems, xml });
    }
  }
  if (refused.length === 0) set ??= noInstruments;
  return { set, refused, overruled };
}
