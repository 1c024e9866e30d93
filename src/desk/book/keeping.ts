import { Turns } from "../../instruments/turns.js";
import { Drafts, type Draft } from "./drafts.js";
import type { OpenBook } from "./open-book.js";

/** Work is kept when nobody has typed for so long, in milliseconds. */
const PAUSE = 800;

/** Keeps what is not saved yet, a moment after each edit, so that no crash and no closed page loses it. */
export class Keeping {
  /** What is written into the browser's database, one after the other. */
  readonly #turns = new Turns();
  /** Counts the pieces of work: what comes late of one that is over is not kept beside the next. */
  #work = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** Whether the file that the work began with is kept. */
  #begun = false;

  /** @param failed called when this browser does not keep anything */
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
    this.#timer = setTimeout(() => void this.now(book), PAUSE);
  }

  /** @returns whether the work is kept */
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

  /** All is saved, or given up. */
  async end(): Promise<void> {
    clearTimeout(this.#timer);
    this.#work += 1;
    await this.#turns.take(async () => {
      this.#begun = false;
      // Where nothing can be kept there is nothing to take away.
      await this.drafts.end().catch(() => undefined);
    });
  }

  /** Work that other pages left behind, the latest first. */
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
