import { fileLimit } from "../../workbook/limits.js";
import { render } from "lit";
import { Questions } from "../../pane/parts/question.js";
import type { Notice } from "../../pane/parts/notices.js";
import { WorkbookError } from "../../workbook/error.js";
import { download, XLSX } from "../host/download.js";
import type { Draft } from "../book/drafts.js";
import { readExample } from "./examples.js";
import { Keeping } from "../book/keeping.js";
import { missingNotice } from "./missing-notice.js";
import type { OpenBook } from "../book/open-book.js";
import { type PageTopic, bar, notices, start, status } from "./views.js";
import type { Workbench } from "../workbench.js";

/** The parts of the page that are drawn here. */
export interface Places {
  readonly bar: HTMLElement;
  readonly notices: HTMLElement;
  readonly start: HTMLElement;
  readonly status: HTMLElement;
  /** Holds sheet and pane. */
  readonly stage: HTMLElement;
  readonly pane: HTMLIFrameElement;
}

/** The page around the sheet: what is open, whether it is saved, what there is to tell. */
export class DeskPage {
  readonly notices = new Map<PageTopic, Notice>();
  readonly questions = new Questions(() => {
    this.draw();
  });
  book: OpenBook | undefined;
  /** What is under way, in words. */
  busy: string | undefined;
  isSaved = true;
  paneShown = true;
  left: readonly Draft[] = [];
  explanation: string | undefined;
  readonly #keeping = new Keeping((error) => {
    this.say("draft", {
      tone: "warning",
      text: `This browser does not keep work in progress (${String(error)}). Save often.`,
    });
  });
  readonly #told = new Set<string>();
  #edits = 0;
  /** What was last said of instruments that are missing. */
  #missing: string | undefined;

  /** @param workbench that is still loading */
  constructor(
    private readonly places: Places,
    private readonly workbench: Promise<Workbench>,
  ) {
    window.addEventListener("beforeunload", (event) => {
      if (!this.isSaved) event.preventDefault();
    });
  }

  draw(): void {
    const { places } = this;
    render(bar(this), places.bar);
    render(notices(this), places.notices);
    render(start(this), places.start);
    render(status(this), places.status);
    places.start.hidden = this.book !== undefined;
    places.stage.classList.toggle("with-pane", this.paneShown && this.book !== undefined);
    places.stage.setAttribute("aria-busy", String(this.busy !== undefined));
    document.title = this.book
      ? `${this.isSaved ? "" : "• "}${this.book.name} – Gylesheet desk`
      : "Gylesheet desk";
  }

  async openFile(file: File): Promise<void> {
    await this.#open(file.name, async () => {
      if (file.size > fileLimit) throw new WorkbookError(`is larger than ${fileLimit / 1024 / 1024} MB`);
      return new Uint8Array(await file.arrayBuffer());
    });
  }

  async openExample(name: string): Promise<void> {
    await this.#open(name, () => readExample(name));
  }

  async openDraft(draft: Draft): Promise<void> {
    const { openWorkbook } = await import("../../workbook/workbook.js");
    const opened = await this.#open(draft.name, async () => {
      const file = await this.#keeping.fileOf(draft);
      if (!file) throw new WorkbookError("is no longer kept in this browser");
      const { changes, extras } = draft.edits;
      return (await openWorkbook(file)).patch(changes, extras);
    });
    if (!opened || !this.book) return;
    this.edited();
    // What could not be kept anew stays where it was.
    if (await this.#keeping.now(this.book)) await this.dropDraft(draft);
  }

  async dropDraft(draft: Draft): Promise<void> {
    await this.#keeping.drop(draft);
    this.left = this.left.filter(({ id }) => id !== draft.id);
    this.draw();
  }

  /** Looks for work that was not saved when a page was closed. */
  async findDrafts(): Promise<void> {
    this.left = await this.#keeping.leftBehind();
    this.draw();
  }

  async save(): Promise<void> {
    const { book } = this;
    if (!book) return;
    try {
      const edits = this.#edits;
      const bytes = await book.save();
      download(book.name, new Blob([bytes as Uint8Array<ArrayBuffer>], { type: XLSX }));
      // What was typed meanwhile is not in the file.
      this.isSaved = edits === this.#edits;
      if (this.isSaved) await this.#keeping.end();
      const isVoid = book.workbook.isSigned && bytes !== book.bytes;
      this.say("file", {
        tone: "success",
        text: `${book.name} is among your downloads.${isVoid ? " Its signature is void: have it signed anew." : ""}`,
      });
      await this.focusWork();
    } catch (error) {
      this.say("file", { tone: "error", text: `${book.name} was not saved: ${reasonOf(error)}` });
    }
  }

  /** Gives the keyboard to the sheet, or to what stands in its place. */
  async focusWork(): Promise<void> {
    if (this.book) (await this.workbench).focus();
    else this.places.start.querySelector("button")?.focus();
  }

  togglePane(): void {
    this.paneShown = !this.paneShown;
    this.draw();
  }

  /** Called when anything changed that belongs into the file. */
  edited(): void {
    if (!this.book || this.busy !== undefined) return;
    this.isSaved = false;
    this.#edits++;
    this.notices.delete("file");
    this.#keeping.edited(this.book);
    this.draw();
  }

  /** Called when formulas have come to new results. */
  calculated(): void {
    if (this.book && this.busy === undefined) this.#tellMissing(this.book);
  }

  /** Called when something will not be saved. Each sentence is said once for a workbook. */
  unsaved(sentence: string): void {
    if (!this.book || this.busy !== undefined || this.#told.has(sentence)) return;
    this.#told.add(sentence);
    this.say("unsaved", { tone: "warning", text: sentence });
  }

  /** Called when another cell is selected. */
  async selected(): Promise<void> {
    const { explanation } = this;
    this.explanation = this.book ? (await this.workbench).explainSelected() : undefined;
    if (explanation !== this.explanation) this.draw();
  }

  say(about: PageTopic, notice: Notice): void {
    this.notices.set(about, notice);
    this.draw();
  }

  dismiss(about: PageTopic): void {
    this.notices.delete(about);
    this.draw();
  }

  /** @returns whether it is open now; a file that is refused leaves everything as it was */
  async #open(name: string, read: () => Promise<Uint8Array>): Promise<boolean> {
    this.#begin(`Opening ${name} …`);
    try {
      // What opens the page with a file has both still to load.
      const [workbench, bytes] = await Promise.all([this.workbench, read()]);
      const book = await workbench.read(name, bytes);
      this.#end();
      if (!(await this.#mayLeave())) return false;
      this.#begin(`Opening ${name} …`);
      await workbench.show(book);
      await this.#isOpen(book, workbench);
      return true;
    } catch (error) {
      this.say("file", { tone: "error", text: `${name} ${reasonOf(error)}` });
      return false;
    } finally {
      this.#end();
    }
  }

  #begin(what: string): void {
    this.busy = what;
    this.draw();
  }

  #end(): void {
    this.busy = undefined;
    this.draw();
  }

  async #isOpen(book: OpenBook, workbench: Workbench): Promise<void> {
    this.book = book;
    this.isSaved = true;
    this.explanation = undefined;
    this.notices.clear();
    this.#told.clear();
    await this.#keeping.end();
    this.#tellSigned(book);
    this.#tellKept(book);
    this.#missing = undefined;
    this.#tellMissing(book);
    Object.assign(window, { gylesheetHost: workbench.hostOf(book) });
    this.places.pane.contentWindow?.location.replace("pane.html");
    // What does not show cannot have the keyboard.
    this.draw();
    workbench.focus();
  }

  async #mayLeave(): Promise<boolean> {
    if (this.isSaved || !this.book) return true;
    const answer = await this.questions.ask({
      title: "Save first?",
      text: `${this.book.name} has changes that are not saved.`,
      answers: [
        { answer: "save", label: "Save it", tone: "primary" },
        { answer: "leave", label: "Give the changes up", tone: "danger" },
      ],
    });
    if (answer === "save") await this.save();
    return answer === "leave" || (answer === "save" && this.isSaved);
  }

  #tellSigned({ name, workbook }: OpenBook): void {
    if (!workbook.isSigned) return;
    this.notices.set("signed", {
      tone: "warning",
      text: `${name} is signed, and the signature will be void once you save changes. Have what you save signed anew.`,
    });
  }

  /** Says which cells keep their numbers for want of an instrument, and takes it back as they are mended. */
  #tellMissing(book: OpenBook): void {
    const notice = missingNotice(book.numbers.all, () => book.hasUnreadableInstruments);
    if (notice?.text === this.#missing) return;
    // What was dismissed stays away while it only gets less.
    if (notice && (this.#missing === undefined || this.notices.has("missing"))) this.say("missing", notice);
    else if (!notice) this.dismiss("missing");
    this.#missing = notice?.text;
  }

  #tellKept(book: OpenBook): void {
    const { kept } = book;
    if (kept.length === 0) return;
    const count = kept.length === 1 ? "1 formula" : `${kept.length} formulas`;
    this.notices.set("kept", {
      tone: "info",
      text: `${count} cannot be calculated here as a spreadsheet program would. Their cells show the values that the file has, and stay as they are when it is saved.`,
      details: kept.map(({ sheet, address, why }) => `${sheet} ${address}: ${why}`),
    });
  }
}

/** The end of a sentence that begins with the file's name. */
function reasonOf(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  const sentence = /[.!?]$/.test(text) ? text : `${text}.`;
  return error instanceof WorkbookError || error instanceof RangeError
    ? sentence
    : `could not be opened: ${sentence}`;
}
