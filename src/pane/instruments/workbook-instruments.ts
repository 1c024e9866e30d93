import { EditRefused } from "../../instruments/edit-refused.js";
import { put } from "../../instruments/edits.js";
import { Keeper, type News, type PartStore } from "../../instruments/keeper.js";
import { revert } from "../../instruments/revert.js";
import { noInstruments, type InstrumentSet } from "../../instruments/set.js";
import type { Attempts } from "../parts/attempts.js";
import { sentenceOf } from "../parts/failure.js";
import type { Notice, Notices } from "../parts/notices.js";
import type { OurFormula } from "../ports/formulas-port.js";
import type { Emitter } from "../source.js";
import type { Recalculator } from "../workbook/recalculator.js";
import { EditConflicts } from "./edit-conflicts.js";

/** State of the workbook's instruments. */
type State =
  | { readonly is: "loading" }
  | { readonly is: "failed"; readonly why: string }
  /** Instruments are stored, but they cannot be read. */
  | { readonly is: "unreadable"; readonly news: News }
  | { readonly is: "ready"; readonly set: InstrumentSet; readonly news: News };

/** Options for a change of the instruments. */
interface ChangeOptions {
  /** Formulas that the user accepts will lose their results. */
  readonly agreed?: readonly OurFormula[];
  /**
   * How to undo it; if missing, the instruments it changed are restored. Resolves to whether nothing is left to undo.
   */
  readonly undo?: (() => Promise<boolean>) | "none";
}

/**
 * A change of the instruments.
 *
 * @param now ISO time of the edit
 */
type Edit = (set: InstrumentSet, now: string) => InstrumentSet;

/** The workbook's instruments and their changes. Cells are updated after each change. */
export class WorkbookInstruments {
  state: State = { is: "loading" };
  readonly conflicts: EditConflicts;
  readonly #keeper: Keeper;

  constructor(
    parts: PartStore,
    private readonly recalculator: Recalculator,
    private readonly notices: Notices,
    private readonly attempts: Attempts,
    private readonly changed: Emitter,
  ) {
    this.#keeper = new Keeper(parts);
    this.conflicts = new EditConflicts(changed, (mine) =>
      this.change((all, now) => put(all, mine, now), `"${mine.name}" is yours again.`),
    );
  }

  /** The instruments; empty if there are none or they cannot be read. */
  get set(): InstrumentSet {
    return this.state.is === "ready" ? this.state.set : noInstruments;
  }

  /** Reads the workbook's instruments again. */
  async look(): Promise<void> {
    try {
      await this.#take(await this.#keeper.refresh());
    } catch (error) {
      if (this.state.is === "ready") this.attempts.failed(error);
      else {
        const why = sentenceOf(error);
        this.state = { is: "failed", why };
        // Waiting cells are told immediately.
        void this.recalculator.changed([], { why });
      }
    }
    this.changed.emit();
  }

  /**
   * Changes the instruments in the workbook and updates the cells. Can be undone.
   *
   * @param said message on success
   * @returns whether it was done; if not, the user was told why
   */
  async change(edit: Edit, said: string, { agreed = [], undo }: ChangeOptions = {}): Promise<boolean> {
    try {
      const { back } = await this.#edit(edit, agreed);
      const undoing = undo ?? (back && (() => this.#undo(back)));
      this.sayDone({ tone: "success", text: said }, undoing === "none" ? undefined : undoing);
      return true;
    } catch (error) {
      this.attempts.failed(error);
      return false;
    }
  }

  /**
   * Reports that an edit is done. If undoing fails for the moment, it is offered again.
   *
   * @param undo resolves to whether nothing is left to undo
   */
  sayDone(notice: Notice, undo: (() => Promise<boolean>) | undefined): void {
    const run = async (): Promise<void> => {
      if (undo && !(await undo()) && !this.notices.get("edit")) this.sayDone(notice, undo);
    };
    this.notices.say(
      "edit",
      undo ? { ...notice, actions: [{ label: "Undo", run: () => void run() }] } : notice,
    );
  }

  /** Starts a new set of instruments and leaves the unreadable one as it is. */
  async startBeside(): Promise<void> {
    try {
      await this.#take(await this.#keeper.startBeside());
    } catch (error) {
      this.attempts.failed(error);
    }
    this.changed.emit();
  }

  async #edit(edit: Edit, agreed: readonly OurFormula[]): Promise<{ readonly back: Edit | undefined }> {
    const now = new Date().toISOString();
    let before = noInstruments;
    const news = await this.#keeper.edit((set) => {
      before = set;
      return edit(set, now);
    });
    this.recalculator.agree(agreed);
    void this.#take(news);
    return { back: news.set && revert(before, news.set) };
  }

  /** @returns whether nothing is left to undo */
  async #undo(back: Edit): Promise<boolean> {
    try {
      await this.#edit(back, []);
      this.notices.say("edit", { tone: "success", text: "Undone." });
      return true;
    } catch (error) {
      this.attempts.failed(error);
      return error instanceof EditRefused;
    }
  }

  async #take(news: News): Promise<void> {
    const { set, refused, changed, overruled, unwritten } = news;
    this.state = set ? { is: "ready", set, news } : { is: "unreadable", news };
    if (unwritten === undefined) this.notices.dismiss("unwritten");
    else
      this.notices.say("unwritten", {
        tone: "warning",
        text: `Instruments that were brought together are not written into the workbook yet: ${sentenceOf(unwritten)}`,
      });
    this.conflicts.add(overruled);
    this.changed.emit();
    const why = refused[0]?.problems[0] ?? "They are not in a form that this version reads.";
    await this.recalculator.changed(changed, set ? { set } : { why });
  }
}
