import type { Notices } from "../../pane/parts/notices.js";
import type { Emitter } from "../../pane/source.js";
import { WorkbookError } from "../../workbook/error.js";
import type { Draft } from "../book/drafts.js";
import { Autosave } from "../book/autosave.js";
import type { OpenBook } from "../book/open-book.js";
import { download, XLSX } from "../host/download.js";
import type { PageTopic } from "./book-notices.js";
import { reasonOf } from "./reason.js";

/** Unsaved work of the open workbook and of those that earlier pages left behind. */
export class UnsavedWork {
  isSaved = true;
  /** Work that was unsaved when its page was closed. */
  left: readonly Draft[] = [];
  #edits = 0;
  readonly #autosave = new Autosave((error) => {
    this.notices.say("draft", {
      tone: "warning",
      text: `This browser does not keep work in progress (${String(error)}). Save often.`,
    });
  });

  constructor(
    private readonly notices: Notices<PageTopic>,
    private readonly changed: Emitter,
  ) {
    window.addEventListener("beforeunload", (event) => {
      if (!this.isSaved) event.preventDefault();
    });
  }

  /** Something that belongs in the file has changed. */
  edited(book: OpenBook): void {
    this.isSaved = false;
    this.#edits++;
    this.#autosave.edited(book);
    // The notice about the last save is outdated.
    this.notices.dismiss("file");
  }

  /** The open workbook is saved or discarded: another one takes its place. */
  async end(): Promise<void> {
    this.isSaved = true;
    await this.#autosave.end();
  }

  /**
   * Offers the file for saving and reports the result.
   *
   * @returns whether it was offered
   */
  async save(book: OpenBook): Promise<boolean> {
    try {
      const edits = this.#edits;
      const bytes = await book.save();
      download(book.name, new Blob([bytes as Uint8Array<ArrayBuffer>], { type: XLSX }));
      // Anything typed meanwhile is not in the file.
      this.isSaved = edits === this.#edits;
      if (this.isSaved) await this.#autosave.end();
      const isVoid = book.workbook.isSigned && bytes !== book.bytes;
      this.notices.say("file", {
        tone: "success",
        text: `${book.name} is among your downloads.${isVoid ? " Its signature is void: have it signed anew." : ""}`,
      });
      return true;
    } catch (error) {
      this.notices.say("file", { tone: "error", text: `${book.name} was not saved: ${reasonOf(error)}` });
      return false;
    }
  }

  /** Looks for work that was unsaved when a page was closed. */
  async find(): Promise<void> {
    this.left = await this.#autosave.leftBehind();
    this.changed.emit();
  }

  /**
   * The file of a draft as it was left.
   *
   * @throws WorkbookError if it no longer exists
   */
  async fileOf(draft: Draft): Promise<Uint8Array> {
    const { openWorkbook } = await import("../../workbook/workbook.js");
    const file = await this.#autosave.fileOf(draft);
    if (!file) throw new WorkbookError("is no longer kept in this browser");
    const { changes, extras } = draft.edits;
    return (await openWorkbook(file)).patch(changes, extras);
  }

  /** Continues a draft in the open workbook. The old draft is dropped only once the new one is stored. */
  async adopt(draft: Draft, book: OpenBook): Promise<void> {
    this.edited(book);
    if (await this.#autosave.now(book)) await this.drop(draft);
  }

  async drop(draft: Draft): Promise<void> {
    await this.#autosave.drop(draft);
    this.left = this.left.filter(({ id }) => id !== draft.id);
    this.changed.emit();
  }
}
