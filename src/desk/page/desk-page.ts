import { render } from "lit";
import { Notices } from "../../pane/parts/notices.js";
import { Questions } from "../../pane/parts/question.js";
import { Emitter } from "../../pane/source.js";
import { WorkbookError } from "../../workbook/error.js";
import { fileLimit } from "../../workbook/limits.js";
import type { Draft } from "../book/drafts.js";
import type { OpenBook } from "../book/open-book.js";
import type { SheetEvents } from "../univer/watch.js";
import type { Workbench } from "../workbench.js";
import { BookNotices, type PageTopic } from "./book-notices.js";
import { readExample } from "./examples.js";
import { reasonOf } from "./reason.js";
import { UnsavedWork } from "./unsaved-work.js";
import { bar, notices, start, status, type PageState } from "./views.js";

/** The elements of the page that are rendered here. */
export interface PageElements {
  readonly bar: HTMLElement;
  readonly notices: HTMLElement;
  readonly start: HTMLElement;
  readonly status: HTMLElement;
  /** Contains sheet and pane. */
  readonly stage: HTMLElement;
  readonly pane: HTMLIFrameElement;
}

/** The page around the sheet: the open file, running work, notices. */
export class DeskPage implements PageState {
  /** Something shown on the page has changed. */
  readonly changed = new Emitter();
  readonly notices = new Notices<PageTopic>(this.changed);
  readonly questions = new Questions(this.changed);
  readonly unsaved = new UnsavedWork(this.notices, this.changed);
  book: OpenBook | undefined;
  busy: string | undefined;
  paneShown = true;
  explanation: string | undefined;
  readonly #bookNotices = new BookNotices(this.notices);

  /** @param workbench while it is still loading */
  constructor(
    private readonly places: PageElements,
    private readonly workbench: Promise<Workbench>,
  ) {
    this.changed.on(() => {
      this.#draw();
    });
    void workbench.then(({ events }) => {
      this.#follow(events);
    });
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
    const opened = await this.#open(draft.name, () => this.unsaved.fileOf(draft));
    if (opened && this.book) await this.unsaved.adopt(draft, this.book);
  }

  async save(): Promise<void> {
    if (this.book && (await this.unsaved.save(this.book))) await this.focusWork();
  }

  /** Moves the focus to the sheet, or to what is shown in its place. */
  async focusWork(): Promise<void> {
    if (this.book) (await this.workbench).focus();
    else this.places.start.querySelector("button")?.focus();
  }

  /** Shows or folds the pane beside the sheet. */
  showPane(shown: boolean): void {
    this.paneShown = shown;
    this.changed.emit();
  }

  #draw(): void {
    const { places, book } = this;
    render(bar(this), places.bar);
    render(notices(this), places.notices);
    render(start(this), places.start);
    render(status(this), places.status);
    places.start.hidden = book !== undefined;
    places.stage.classList.toggle("with-pane", this.paneShown && book !== undefined);
    places.stage.setAttribute("aria-busy", String(this.busy !== undefined));
    document.title = book
      ? `${this.unsaved.isSaved ? "" : "• "}${book.name} – Gylesheet desk`
      : "Gylesheet desk";
  }

  /** The workbook being edited. Events of the sheet while one is opening are not edits. */
  get #atWork(): OpenBook | undefined {
    return this.busy === undefined ? this.book : undefined;
  }

  #follow({ edited, calculated, unsaved, selected }: SheetEvents): void {
    edited.on(this.#edited);
    calculated.on(() => {
      if (this.#atWork) this.#bookNotices.tellMissing(this.#atWork);
    });
    unsaved.on((sentence) => {
      if (this.#atWork) this.#bookNotices.tellUnsaved(sentence);
    });
    selected.on(() => void this.#selected());
  }

  readonly #edited = (): void => {
    if (this.#atWork) this.unsaved.edited(this.#atWork);
  };

  async #selected(): Promise<void> {
    const { explanation } = this;
    this.explanation = this.book ? (await this.workbench).explainSelected() : undefined;
    if (explanation !== this.explanation) this.changed.emit();
  }

  /** @returns whether it is open now; if the file is refused, nothing changes */
  async #open(name: string, read: () => Promise<Uint8Array>): Promise<boolean> {
    this.#begin(`Opening ${name} …`);
    try {
      // If the page is opened with a file, both are still loading.
      const [workbench, bytes] = await Promise.all([this.workbench, read()]);
      const book = await workbench.read(name, bytes);
      this.#end();
      if (!(await this.#mayLeave())) return false;
      this.#begin(`Opening ${name} …`);
      await workbench.show(book);
      await this.#isOpen(book, workbench);
      return true;
    } catch (error) {
      this.notices.say("file", { tone: "error", text: `${name} ${reasonOf(error)}` });
      return false;
    } finally {
      this.#end();
    }
  }

  #begin(what: string): void {
    this.busy = what;
    this.changed.emit();
  }

  #end(): void {
    this.busy = undefined;
    this.changed.emit();
  }

  async #isOpen(book: OpenBook, workbench: Workbench): Promise<void> {
    this.book = book;
    this.explanation = undefined;
    await this.unsaved.end();
    book.edited.on(this.#edited);
    this.#bookNotices.opened(book);
    Object.assign(window, { gylesheetHost: workbench.hostOf(book) });
    this.places.pane.contentWindow?.location.replace("pane.html");
    // Hidden elements cannot take the focus.
    this.changed.emit();
    workbench.focus();
  }

  async #mayLeave(): Promise<boolean> {
    if (this.unsaved.isSaved || !this.book) return true;
    const answer = await this.questions.ask({
      title: "Save first?",
      text: `${this.book.name} has changes that are not saved.`,
      answers: [
        { answer: "save", label: "Save it", tone: "primary" },
        { answer: "leave", label: "Give the changes up", tone: "danger" },
      ],
    });
    if (answer === "save") await this.save();
    return answer === "leave" || (answer === "save" && this.unsaved.isSaved);
  }
}
