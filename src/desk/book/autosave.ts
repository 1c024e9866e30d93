import { Turns } from "../../instruments/turns.js";
import { Drafts, type Draft } from "./drafts.js";
import type { OpenBook } from "./open-book.js";

/** Time without typing before work is saved, in milliseconds. */
const IDLE_MS = 800;

/**
 * Saves drafts of unsaved work shortly after each edit, so that nothing is lost if the browser crashes or the page is
 * closed.
 */
export class Autosave {
  /** Serialises writes to the browser's database. */
  readonly #turns = new Turns();
  /**
   * Number of the current workbook's work. A late write for finished work is dropped, so that it is not stored with the
   * next.
   */
  #work = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** Whether the original file is stored. */
  #begun = false;

  /** @param failed called if this browser does not store anything */
  constructor(
    private readonly failed: (error: unknown) => void,
    private readonly drafts: Pick<
      Drafts,
      "begin" | "keep" | "end" | "leftBehind" | "fileOf" | "drop"
    > = new Drafts(),
  ) {}

  /** A workbook was changed. */
  edited(book: OpenBook): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.now(book), IDLE_MS);
  }

  /** @returns whether the draft was stored */
  async now(book: Pick<OpenBook, "name" | "bytes" | "edits">): Promise<boolean> {
    clearTimeout(this.#timer);
    const work = this.#work;
    try {
      const edits = await book.edits();
      return await this.#turns.take(async () => {
        if (work !== this.#work) return false;
        if (!this.#begun) await this.drafts.begin(book.bytes);
        this.#begun = true;
        await this.drafts.keep(book.name, edits);
        return true;
      });
    } catch (error) {
      this.failed(error);
      return false;
    }
  }

  /** Called when everything is saved or discarded. */
  async end(): Promise<void> {
    clearTimeout(this.#timer);
    this.#work += 1;
    await this.#turns.take(async () => {
      this.#begun = false;
      // If nothing can be stored, there is nothing to remove.
      await this.drafts.end().catch(() => undefined);
    });
  }

  /** Drafts left behind by other pages, the latest first. */
  leftBehind(): Promise<readonly Draft[]> {
    return this.drafts.leftBehind().catch(() => []);
  }

  fileOf(draft: Draft): Promise<Uint8Array | undefined> {
    return this.drafts.fileOf(draft);
  }

  drop({ id }: Draft): Promise<void> {
    return this.drafts.drop(id);
  }
}
