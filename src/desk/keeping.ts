import { Drafts, type Draft } from "./drafts.js";
import type { OpenBook } from "./open-book.js";

/** Work is kept when nobody has typed for so long, in milliseconds. */
const PAUSE = 800;

/** Keeps what is not saved yet, a moment after each edit, so that no crash and no closed page loses it. */
export class Keeping {
  readonly #drafts = new Drafts();
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** Whether the file that the work began with is kept. */
  #begun = false;

  /** @param failed called when this browser does not keep anything */
  constructor(private readonly failed: (error: unknown) => void) {}

  /** A workbook was changed. */
  edited(book: OpenBook): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.now(book), PAUSE);
  }

  async now(book: OpenBook): Promise<void> {
    clearTimeout(this.#timer);
    try {
      if (!this.#begun) await this.#drafts.begin(book.bytes);
      this.#begun = true;
      await this.#drafts.keep(book.name, await book.edits());
    } catch (error) {
      this.failed(error);
    }
  }

  /** All is saved, or given up. */
  async end(): Promise<void> {
    clearTimeout(this.#timer);
    this.#begun = false;
    // Where nothing can be kept there is nothing to take away.
    await this.#drafts.end().catch(() => undefined);
  }

  /** Work that other pages left behind, the latest first. */
  leftBehind(): Promise<readonly Draft[]> {
    return this.#drafts.leftBehind().catch(() => []);
  }

  fileOf(draft: Draft): Promise<Uint8Array | undefined> {
    return this.#drafts.fileOf(draft);
  }

  drop({ id }: Draft): Promise<void> {
    return this.#drafts.drop(id);
  }
}
