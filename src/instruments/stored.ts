import { mergeSets, type Overruled } from "./merge.js";
import { readPart } from "./part.js";
import { InstrumentsRefused, type RefusedBecause } from "./refusal.js";
import { noInstruments, type InstrumentSet } from "./set.js";

/** A part in our namespace that was refused. It stays in the workbook as it is. */
export interface RefusedPart {
  readonly because: RefusedBecause;
  readonly problems: readonly string[];
  readonly xml: string;
}

/** The instruments stored in a workbook. */
export interface Stored {
  /** Merged from all readable parts; undefined if there are parts but none can be read. */
  readonly set: InstrumentSet | undefined;
  readonly refused: readonly RefusedPart[];
  /** Profiles overruled when several parts were merged. */
  readonly overruled: readonly Overruled[];
}

/**
 * Instruments from all parts of a workbook in our namespace. There is usually one; two people saving at the same time
 * can leave several.
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
