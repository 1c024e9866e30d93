import { createStore, del, entries, get, set, type UseStore } from "idb-keyval";
import type { Edits } from "./open-book.js";

/** Unsaved work: the file that was opened, and its edits. */
export interface Draft {
  readonly id: string;
  readonly name: string;
  /** Time of the last change, in milliseconds since 1970. */
  readonly changed: number;
  readonly edits: Edits;
}

/**
 * Stores work in progress in the browser's database. Each page stores one draft under a name that it holds a lock on; a
 * draft without a lock was left behind by a page that was closed or crashed.
 */
export class Drafts {
  readonly #drafts: UseStore = createStore("gylesheet-drafts", "drafts");
  readonly #files: UseStore = createStore("gylesheet-files", "files");
  readonly #mine = crypto.randomUUID();

  constructor() {
    void this.#hold();
  }

  /** Stores the file itself, once: it may be large, and its edits change often. */
  async begin(bytes: Uint8Array): Promise<void> {
    await this.end();
    await set(this.#mine, bytes, this.#files);
  }

  async keep(name: string, edits: Edits): Promise<void> {
    await set(this.#mine, { id: this.#mine, name, changed: Date.now(), edits } satisfies Draft, this.#drafts);
  }

  /** Called when everything is saved or discarded. */
  async end(): Promise<void> {
    await this.drop(this.#mine);
  }

  /** The file of a draft. */
  async fileOf({ id }: Draft): Promise<Uint8Array | undefined> {
    return get<Uint8Array>(id, this.#files);
  }

  async drop(id: string): Promise<void> {
    await Promise.all([del(id, this.#drafts), del(id, this.#files)]);
  }

  /** Drafts left behind by other pages, the latest first. */
  async leftBehind(): Promise<Draft[]> {
    const { held = [] } = await navigator.locks.query();
    const open = new Set(held.map(({ name }) => name));
    const all = await entries<string, Draft>(this.#drafts);
    return all
      .map(([, draft]) => draft)
      .filter(({ id }) => id !== this.#mine && !open.has(lockOf(id)))
      .sort((a, b) => b.changed - a.changed);
  }

  /** Held until the page is gone. */
  #hold(): Promise<unknown> {
    return navigator.locks.request(lockOf(this.#mine), () => new Promise<never>(() => undefined));
  }
}

function lockOf(id: string): string {
  return `gylesheet-draft-${id}`;
}
