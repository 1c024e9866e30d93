import type { Notices } from "../../pane/parts/notices.js";
import type { OpenBook } from "../book/open-book.js";
import { missingNotice } from "./missing-notice.js";

/** Topic of a notice of the page; a later one on the same topic replaces it. */
export type PageTopic = "file" | "signed" | "missing" | "kept" | "unsaved" | "draft";

/** Notices about the open workbook. */
export class BookNotices {
  readonly #told = new Set<string>();
  /** Last notice about missing instruments. */
  #missing: string | undefined;

  constructor(private readonly notices: Notices<PageTopic>) {}

  /** Another workbook is open: notices about the previous one are removed. */
  opened(book: OpenBook): void {
    this.notices.clear();
    this.#told.clear();
    this.#tellSigned(book);
    this.#tellKept(book);
    this.#missing = undefined;
    this.tellMissing(book);
  }

  /** Says what will not be saved, each sentence once per workbook. */
  tellUnsaved(sentence: string): void {
    if (this.#told.has(sentence)) return;
    this.#told.add(sentence);
    this.notices.say("unsaved", { tone: "warning", text: sentence });
  }

  /**
   * Says which cells keep their stored values because an instrument is missing, and withdraws the notice as they are
   * fixed.
   */
  tellMissing(book: OpenBook): void {
    const notice = missingNotice(book.numbers.all, () => book.hasUnreadableInstruments);
    if (notice?.text === this.#missing) return;
    // A dismissed notice stays away as long as the list only gets shorter.
    const isNew = this.#missing === undefined || this.notices.get("missing") !== undefined;
    if (notice && isNew) this.notices.say("missing", notice);
    else if (!notice) this.notices.dismiss("missing");
    this.#missing = notice?.text;
  }

  #tellSigned({ name, workbook }: OpenBook): void {
    if (!workbook.isSigned) return;
    this.notices.say("signed", {
      tone: "warning",
      text: `${name} is signed, and the signature will be void once you save changes. Have what you save signed anew.`,
    });
  }

  #tellKept({ kept }: OpenBook): void {
    if (kept.length === 0) return;
    const count = kept.length === 1 ? "1 formula" : `${kept.length} formulas`;
    this.notices.say("kept", {
      tone: "info",
      text: `${count} cannot be calculated here as a spreadsheet program would. Their cells show the values that the file has, and stay as they are when it is saved.`,
      details: kept.map(({ sheet, address, why }) => `${sheet} ${address}: ${why}`),
    });
  }
}
