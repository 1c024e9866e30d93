import type { CellAddress } from "../cells/place.js";
import { InstrumentsRefused } from "../instruments/refusal.js";
import { EditRefused } from "../instruments/edit-refused.js";
import { put } from "../instruments/edits.js";
import { Keeper, NothingReadable, type News } from "../instruments/keeper.js";
import { revert } from "../instruments/revert.js";
import { noInstruments, type InstrumentSet } from "../instruments/set.js";
import { ChangesScreen } from "./workbook/changes-screen.js";
import { CopyScreen } from "./workbook/copy-screen.js";
import { sentenceOf } from "./parts/failure.js";
import { noticeKey, type About, type Notice } from "./parts/notices.js";
import { Others } from "./instruments/others.js";
import type { Host, OurFormula, Report, Work } from "./ports.js";
import { Questions, type Question } from "./parts/question.js";
import { sections, type Screen, type Section } from "./parts/screen.js";
import { Sweep } from "./workbook/sweep.js";
import { Stopped, Tasks } from "./parts/tasks.js";
import { reportNotice } from "./workbook/unreached.js";
import { workbookChange } from "./workbook/workbook-change.js";

/** How the workbook's instruments stand. */
export type State =
  | { readonly is: "loading" }
  | { readonly is: "failed"; readonly why: string }
  /** There is something in their place that cannot be read. */
  | { readonly is: "unreadable"; readonly news: News }
  | { readonly is: "ready"; readonly set: InstrumentSet; readonly news: News };

/** What belongs to a change of the instruments. */
interface ChangeOptions {
  /** Formulas of which the user knows that they lose their results by it. */
  readonly agreed?: readonly OurFormula[];
  /** How it is taken back; if missing, what it changed becomes as it was. Resolves to whether nothing is left to take back. */
  readonly undo?: (() => Promise<boolean>) | "none";
}

/** A change of the instruments. @param now ISO time of the edit */
export type Edit = (set: InstrumentSet, now: string) => InstrumentSet;

/** What screens share: the instruments, the way from screen to screen, and what is told and asked. */
export class Pane {
  state: State = { is: "loading" };
  section: Section = "Instruments";
  /** By their keys. */
  readonly notices = new Map<string, Notice>();
  readonly tasks: Tasks;
  readonly questions: Questions;
  readonly sweep: Sweep;
  readonly others: Others;
  readonly #keeper: Keeper;
  readonly #busy = new Set<Screen>();
  readonly #stacks: Record<Section, Screen[]> = {
    Instruments: [],
    Functions: [],
    Cell: [],
    Workbook: [],
    About: [],
  };

  /** @param render shows the pane as it is now; `moved` if the user is on another screen than before */
  constructor(
    readonly host: Host,
    private readonly render: (moved: boolean) => void,
  ) {
    const update = (): void => {
      this.update();
    };
    this.tasks = new Tasks(update);
    this.questions = new Questions(update);
    this.sweep = new Sweep(host.formulas, host.functions, this.tasks, {
      say: (about, notice) => {
        this.say(about, notice);
      },
      dismiss: (about) => {
        this.dismiss(about);
      },
      update,
      showChanges: (names, before) => void this.#showChanges(names, before),
    });
    this.others = new Others(update, (mine) =>
      this.change((all, now) => put(all, mine, now), `"${mine.name}" is yours again.`),
    );
    this.#keeper = new Keeper(host.parts);
  }

  /** The instruments, or none where there are none to be had. */
  get set(): InstrumentSet {
    return this.state.is === "ready" ? this.state.set : noInstruments;
  }

  get screen(): Screen {
    const top = this.#stacks[this.section].at(-1);
    if (!top) throw new Error(`There is no screen in ${this.section}.`);
    return top;
  }

  /** The screen that going back leads to. */
  get below(): Screen | undefined {
    return this.#stacks[this.section].at(-2);
  }

  /** Starts with one screen for each section. */
  start(roots: Readonly<Record<Section, Screen>>): void {
    for (const section of sections) this.#stacks[section] = [roots[section]];
    this.update();
    this.host.onOthersEdit(() => void this.look());
    void this.look().then(() => this.sweep.find());
  }

  update(): void {
    this.render(false);
  }

  open(screen: Screen, section = this.section): void {
    this.section = section;
    this.#stacks[section].push(screen);
    this.render(true);
  }

  /**
   * Puts a screen in the place of another, where that one still lies; whatever the user has gone to meanwhile stays.
   *
   * @param wholly takes the way there away too, so that going back leads to the first screen of the section
   * @returns whether the other one was still there
   */
  replace(old: Screen, screen: Screen, wholly = false): boolean {
    for (const section of sections) {
      const stack = this.#stacks[section];
      const at = stack.indexOf(old);
      if (at < 1) continue;
      const from = wholly ? 1 : at;
      stack.splice(from, at - from + 1, screen);
      this.render(section === this.section);
      return true;
    }
    return false;
  }

  /** Leaves the screen that is shown; asks first where something typed would be lost. */
  async back(): Promise<void> {
    if (this.screen.unsaved?.()) {
      const answer = await this.ask({
        title: "Leave without saving?",
        text: "What you typed here is not saved.",
        answers: [{ answer: "leave", label: "Leave", tone: "danger" }],
      });
      if (answer !== "leave") return;
    }
    this.close(this.screen);
  }

  /** Takes a screen away, wherever it lies. */
  close(screen: Screen): void {
    let moved = false;
    for (const section of sections) {
      const stack = this.#stacks[section];
      const at = stack.indexOf(screen);
      if (at < 1) continue;
      moved ||= section === this.section && screen === this.screen;
      stack.splice(at, 1);
    }
    this.render(moved);
  }

  show(section: Section): void {
    this.section = section;
    this.render(true);
    this.screen.shown?.();
  }

  say(about: About, notice: Notice): void {
    this.notices.set(noticeKey(about, notice), notice);
    this.update();
  }

  /** @param key of a notice */
  dismiss(key: string): void {
    this.notices.delete(key);
    this.update();
  }

  ask<T extends string>(question: Question<T>): Promise<T | undefined> {
    return this.questions.ask(question);
  }

  /** Looks at the workbook's instruments again. */
  async look(): Promise<void> {
    try {
      await this.#take(await this.#keeper.refresh());
    } catch (error) {
      if (this.state.is === "ready") this.#trouble(error);
      else {
        const why = sentenceOf(error);
        this.state = { is: "failed", why };
        // Cells that wait are told at once.
        void this.sweep.changed([], { why });
      }
    }
    this.update();
  }

  /** Whether a screen has something under way. */
  isBusy(screen: Screen): boolean {
    return this.#busy.has(screen);
  }

  /** Does something for a screen, unless it has something under way: a second press of a button is not a second wish. */
  async once<T>(screen: Screen, work: () => Promise<T>): Promise<T | undefined> {
    if (this.#busy.has(screen)) return undefined;
    this.#busy.add(screen);
    this.update();
    try {
      return await work();
    } finally {
      this.#busy.delete(screen);
      this.update();
    }
  }

  /**
   * Changes the instruments in the workbook, and has the cells follow. It can be undone.
   *
   * @param said what is told when it is done
   * @returns whether it was done; if not, the user was told why
   */
  async change(edit: Edit, said: string, { agreed = [], undo }: ChangeOptions = {}): Promise<boolean> {
    try {
      const { back } = await this.#edit(edit, agreed);
      const undoing = undo ?? (back && (() => this.#undo(back)));
      this.sayDone({ tone: "success", text: said }, undoing === "none" ? undefined : undoing);
      return true;
    } catch (error) {
      this.#trouble(error);
      return false;
    }
  }

  /**
   * Tells that an edit is done. What cannot be undone at the moment can be later.
   *
   * @param undo resolves to whether nothing is left to take back
   */
  sayDone(notice: Notice, undo: (() => Promise<boolean>) | undefined): void {
    const run = async (): Promise<void> => {
      if (undo && !(await undo()) && !this.notices.has("edit")) this.sayDone(notice, undo);
    };
    this.say("edit", undo ? { ...notice, actions: [{ label: "Undo", run: () => void run() }] } : notice);
  }

  /** Starts new instruments beside what cannot be read, which stays as it is. */
  async startBeside(): Promise<void> {
    try {
      await this.#take(await this.#keeper.startBeside());
    } catch (error) {
      this.#trouble(error);
    }
    this.update();
  }

  /** Does long work with progress. @returns undefined if it was stopped or failed; the user was told */
  work<T>(label: string, start: (work: Work) => Promise<T>): Promise<T | undefined> {
    return this.telling(() => this.tasks.run(label, start));
  }

  /** Does something that may fail or be stopped. @returns undefined then; the user was told */
  async telling<T>(work: () => Promise<T>): Promise<T | undefined> {
    try {
      return await work();
    } catch (error) {
      if (error instanceof Stopped) this.say("trouble", { tone: "info", text: "Stopped." });
      else this.#trouble(error);
      return undefined;
    }
  }

  /** Shows a cell to the user. */
  async showCell(cell: CellAddress): Promise<void> {
    await this.work("Going to the cell", () => this.host.formulas.show(cell));
  }

  /** Saves a file, or shows its text for copying where this host lets no page save. */
  saveFile(name: string, text: string, type: string): void {
    if (this.host.files.save(name, text, type) === "shown") this.open(new CopyScreen(name, text));
  }

  /** Tells what became of work on cells. @param what such as "rewritten" */
  report(report: Report, what: string): void {
    this.say("cells", reportNotice(report, what));
  }

  /** Shows what other instruments have done to the cells. */
  async #showChanges(names: readonly string[], before: InstrumentSet): Promise<void> {
    const change = await this.work("Looking at what changed", (work) =>
      workbookChange(this.host, before, this.set, names, work, this.set),
    );
    if (change) this.open(new ChangesScreen(this, change), "Workbook");
  }

  async #edit(edit: Edit, agreed: readonly OurFormula[]): Promise<{ readonly back: Edit | undefined }> {
    const now = new Date().toISOString();
    let before = noInstruments;
    const news = await this.#keeper.edit((set) => {
      before = set;
      return edit(set, now);
    });
    this.sweep.agree(agreed);
    void this.#take(news);
    return { back: news.set && revert(before, news.set) };
  }

  /** @returns whether there is nothing left to undo */
  async #undo(back: Edit): Promise<boolean> {
    try {
      await this.#edit(back, []);
      this.say("edit", { tone: "success", text: "Undone." });
      return true;
    } catch (error) {
      this.#trouble(error);
      return error instanceof EditRefused;
    }
  }

  #trouble(error: unknown): void {
    const text =
      error instanceof NothingReadable
        ? "The workbook's instruments cannot be read, so nothing was changed."
        : sentenceOf(error);
    const details = error instanceof InstrumentsRefused ? error.problems : [];
    this.say("trouble", { tone: "error", text, details });
  }

  async #take(news: News): Promise<void> {
    const { set, refused, changed, overruled, unwritten } = news;
    this.state = set ? { is: "ready", set, news } : { is: "unreadable", news };
    if (unwritten === undefined) this.notices.delete("unwritten");
    else
      this.say("unwritten", {
        tone: "warning",
        text: `Instruments that were brought together are not written into the workbook yet: ${sentenceOf(unwritten)}`,
      });
    this.others.add(overruled);
    this.update();
    const why = refused[0]?.problems[0] ?? "They are not in a form that this version reads.";
    await this.sweep.changed(changed, set ? { set } : { why });
  }
}
