import { changedNames, mergeSets, sameSets, type Overruled } from "./merge.js";
import { writePart } from "./part.js";
import type { Profile } from "./schema.js";
import { formatSet, noInstruments, parseSet, type InstrumentSet } from "./set.js";
import { storedInstruments, type RefusedPart, type Stored } from "./stored.js";
import { Turns } from "./turns.js";

/** Where a host keeps the XML parts of a workbook in our namespace. */
export interface PartStore {
  /** The texts of all of them. */
  readonly read: () => Promise<readonly string[]>;
  /** Adds a part, and then takes out those with the given texts. */
  readonly write: (xml: string, insteadOf: readonly string[]) => Promise<void>;
}

/** What came of reading or writing the workbook's instruments. */
export interface News {
  /** Undefined where there are parts but none can be read. */
  readonly set: InstrumentSet | undefined;
  readonly refused: readonly RefusedPart[];
  /** Names whose profile is not what it was when last looked. */
  readonly changed: readonly string[];
  /** Edits made here, and edits of others never seen here, that gave way to later ones. */
  readonly overruled: readonly Overruled[];
  /** Why what was brought together here is not in the workbook yet; tried again at the next occasion. */
  readonly unwritten?: unknown;
}

/** There are only parts that cannot be read. To write beside them, say so with `startBeside`. */
export class NothingReadable extends Error {
  override readonly name = "NothingReadable";
}

/**
 * Keeps the instruments of one workbook, which others may be editing as well. What was known here and what is stored
 * are merged each time, so that a co-author who saved over an edit does not undo it. A part that cannot be read is never
 * touched.
 */
export class Keeper {
  #known: InstrumentSet | undefined;
  readonly #seen = new Set<string>();
  readonly #ownEdits = new Set<string>();
  /** No two of our own edits cross. */
  readonly #turns = new Turns();

  constructor(private readonly store: PartStore) {}

  /** Looks at the workbook again. A workbook that cannot be written to, such as one opened for reading, is read all the same. */
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
   * @throws NothingReadable, InstrumentsRefused for a set that could not be read again, or whatever `change` throws;
   *   nothing was written then
   */
  edit(change: (set: InstrumentSet) => InstrumentSet): Promise<News> {
    return this.#turns.take(() =>
      this.#look((set) => {
        if (!set) throw new NothingReadable("The workbook's instruments cannot be read.");
        // As it will be read again, so that an edit is the same from whichever side it is looked at.
        const edited = parseSet(formatSet(change(set)));
        const before = new Set(set.instruments.map((profile) => JSON.stringify(profile)));
        for (const profile of edited.instruments)
          if (!before.has(JSON.stringify(profile))) this.#ownEdits.add(JSON.stringify(profile));
        return edited;
      }),
    );
  }

  /** Starts a set beside parts that cannot be read, which stay. */
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

  /** An earlier state that everyone had seen is no loss when it gives way. */
  #isLoss(profile: Profile): boolean {
    const text = JSON.stringify(profile);
    return this.#ownEdits.has(text) || !this.#seen.has(text);
  }
}
