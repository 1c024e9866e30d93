import { changedNames, mergeSets, sameSets, type Overruled } from "./merge.js";
import { writePart } from "./part.js";
import type { Profile } from "./schema.js";
import { formatSet, noInstruments, parseSet, type InstrumentSet } from "./set.js";
import { storedInstruments, type RefusedPart, type Stored } from "./stored.js";
import { Turns } from "./turns.js";

/** Storage of a workbook's XML parts in our namespace, provided by a host. */
export interface PartStore {
  /** The text of every part. */
  readonly read: () => Promise<readonly string[]>;
  /** Adds a part, and then removes those with the given texts. */
  readonly write: (xml: string, insteadOf: readonly string[]) => Promise<void>;
}

/** Result of reading or writing the workbook's instruments. */
export interface News {
  /** Undefined if there are parts but none can be read. */
  readonly set: InstrumentSet | undefined;
  readonly refused: readonly RefusedPart[];
  /** Names whose profile has changed since the last look. */
  readonly changed: readonly string[];
  /** Edits made here, and edits of others never seen here, that were overruled by later ones. */
  readonly overruled: readonly Overruled[];
  /** Why the merged set is not in the workbook yet; writing is retried on the next occasion. */
  readonly unwritten?: unknown;
}

/** None of the existing parts can be read. To write beside them, call `startBeside`. */
export class NothingReadable extends Error {
  override readonly name = "NothingReadable";
}

/**
 * Keeps the instruments of one workbook, which others may be editing as well. The set known here and the stored one are
 * merged each time, so that a co-author who saved over an edit does not undo it. A part that cannot be read is never
 * touched.
 */
export class Keeper {
  #known: InstrumentSet | undefined;
  readonly #seen = new Set<string>();
  readonly #ownEdits = new Set<string>();
  /** Serialises our own edits. */
  readonly #turns = new Turns();

  constructor(private readonly store: PartStore) {}

  /** Reads the workbook again. A workbook that cannot be written to, such as one opened read-only, is still read. */
  refresh(): Promise<News> {
    return this.#turns.take(async () => {
      let unwritten: unknown;
      const write: PartStore["write"] = async (...part) => {
        try {
          await this.store.write(...part);
        } catch (error) {
          unwritten = error;
        }
      };
      const news = await this.#look((set) => set, write);
      return unwritten === undefined ? news : { ...news, unwritten };
    });
  }

  /**
   * Changes the instruments as they are in the workbook now.
   *
   * @throws NothingReadable, InstrumentsRefused for a set that could not be read back, or whatever `change` throws;
   *   nothing was written then
   */
  edit(change: (set: InstrumentSet) => InstrumentSet): Promise<News> {
    return this.#turns.take(() =>
      this.#look((set) => {
        if (!set) throw new NothingReadable("The workbook's instruments cannot be read.");
        // In the form in which it will be read back, so that an edit compares equal from either side.
        const edited = parseSet(formatSet(change(set)));
        const before = new Set(set.instruments.map((profile) => JSON.stringify(profile)));
        for (const profile of edited.instruments)
          if (!before.has(JSON.stringify(profile))) this.#ownEdits.add(JSON.stringify(profile));
        return edited;
      }),
    );
  }

  /** Starts a set beside unreadable parts, which stay. */
  startBeside(): Promise<News> {
    return this.#turns.take(() => this.#look((set) => set ?? this.#known ?? noInstruments));
  }

  async #look(
    change: (set: InstrumentSet | undefined) => InstrumentSet | undefined,
    write: PartStore["write"] = (...part) => this.store.write(...part),
  ): Promise<News> {
    const parts = await this.store.read();
    const stored: Stored = storedInstruments(parts);
    const before = this.#known ?? stored.set ?? noInstruments;
    const merged = stored.set && mergeSets(before, stored.set);
    const yielding = [...stored.overruled, ...(merged?.overruled ?? [])];
    const overruled = yielding.filter(({ profile }) => this.#isLoss(profile));
    const set = change(merged?.set);
    if (set) {
      const ours = parts.filter((xml) => !stored.refused.some((part) => part.xml === xml));
      const written = stored.set !== undefined && sameSets(stored.set, set);
      if (!written || ours.length > 1) await write(writePart(set), ours);
      this.#known = set;
      for (const profile of set.instruments) this.#seen.add(JSON.stringify(profile));
    }
    return {
      set,
      refused: stored.refused,
      changed: changedNames(before, set ?? before),
      overruled,
    };
  }

  /** Overruling an earlier state that everyone had seen loses nothing. */
  #isLoss(profile: Profile): boolean {
    const text = JSON.stringify(profile);
    return this.#ownEdits.has(text) || !this.#seen.has(text);
  }
}
