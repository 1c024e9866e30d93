import type { Notices } from "../../pane/parts/notices.js";
import type { Emitter } from "../../pane/source.js";
import { WorkbookError } from "../../workbook/error.js";
import type { Draft } from "../book/drafts.js";
import { Keeping } from "../book/keeping.js";
import type { OpenBook } from "../book/open-book.js";
import { download, XLSX } from "../host/download.js";
import type { PageTopic } from "./book-notices.js";
import { reasonOf } from "./reason.js";

/** What is not saved yet, of the workbook that is open and of those that earlier pages left behind. */
export class UnsavedWork {
  isSaved = true;
  /** Work that was not saved when its page was closed. */
  left: readonly Draft[] = [];
  #edits = 0;
  readonly #keeping = new Keeping((error) => {
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

  /** Something has changed that belongs into the file. */
  edited(book: OpenBook): void {
    this.isSaved = false;
    this.#edits++;
    this.#keeping.edited(book);
    // What was said of the last saving is over.
    this.notices.dismiss("file");
  }

  /** What is open is saved, or given up: another workbook takes its place. */
  async end(): Promise<void> {
    this.isSaved = true;
    await this.#keeping.end();
  }

  /** Offers the file for saving, and says what came of it. @returns whether it was offered */
  async save(book: OpenBook): Promise<boolean> {
    try {
      const edits = this.#edits;
      const bytes = await book.save();
      download(book.name, new Blob([bytes as Uint8Array<ArrayBuffer>], { type: XLSX }));
      // What was typed meanwhile is not in the file.
      this.isSaved = edits === this.#edits;
      if (this.isSaved) await this.#keeping.end();
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

  /** Looks for work that was not saved when a page was closed. */
  async find(): Promise<void> {
    this.left = await this.#keeping.leftBehind();
    this.changed.tell();
  }

  /** The file of a draft as it was left. @throws WorkbookError if it is no longer there */
  async fileOf(draft: Draft): Promise<Uint8Array> {
    const { openWorkbook } = await import("../../workbook/workbook.js");
    const file = await this.#keeping.fileOf(draft);
    if (!file) throw new WorkbookError("is no longer kept in this browser");
    const { changes, extras } = draft.edits;
    return (await openWorkbook(file)).patch(changes, extras);
  }

  /** Goes on with a draft in the workbook that is open: what could not be kept anew stays where it was. */
  async adopt(draft: Draft, book: OpenBook): Promise<void> {
    this.edited(book);
    if (await this.#keeping.now(book)) await this.drop(draft);
  }

  async drop(draft: Draft): Promise<void> {
    await this.#keeping.drop(draft);
    this.left = this.left.filter(({ id }) => id !== draft.id);
    this.changed.tell();
  }
}
