import { InstrumentsRefused } from "../instruments/refusal.js";
import { describe } from "../instruments/describe.js";
import { put } from "../instruments/edits.js";
import { Keeper, NothingReadable, type News } from "../instruments/keeper.js";
import { noInstruments, type InstrumentSet } from "../instruments/set.js";
import { ChangesScreen } from "./changes-screen.js";
import { CopyScreen } from "./copy-screen.js";
import { sentenceOf } from "./failure.js";
import type { About, Notice } from "./notices.js";
import type { CellPlace, Host, Report, Work } from "./ports.js";
import { Questions, type Question } from "./question.js";
import { sections, type Screen, type Section } from "./screen.js";
import { reportNotice, Sweep } from "./sweep.js";
import { Stopped, Tasks } from "./tasks.js";
import { workbookChange } from "./workbook-change.js";

/** How the workbook's instruments stand. */
export type State =
  | { readonly is: "loading" }
  | { readonly is: "failed"; readonly why: string }
  /** There is something in their place that cannot be read. */
  | { readonly is: "unreadable"; readonly news: News }
  | { readonly is: "ready"; readonly set: InstrumentSet; readonly news: News };

/** A change of the instruments. @param now ISO time of the edit */
export type Edit = (set: InstrumentSet, now: string) => InstrumentSet;

/** What screens share: the instruments, the way from screen to screen, and what is told and asked. */
export class Pane {
  state: State = { is: "loading" };
  section: Section = "Instruments";
  readonly notices = new Map<About, Notice>();
  readonly tasks: Tasks;
  readonly questions: Questions;
  readonly sweep: Sweep;
  readonly #keeper: Keeper;
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
    this.sweep = new Sweep(
      host.formulas,
      this.tasks,
      (notice) => {
        this.say("cells", notice);
      },
      update,
      (names, before) => void this.#showChanges(names, before),
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

  /** Puts a screen in the place of the one that is shown. */
  replace(screen: Screen): void {
    this.#stacks[this.section].splice(-1, 1, screen);
    this.render(true);
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
    for (const section of sections) {
      const stack = this.#stacks[section];
      const at = stack.indexOf(screen);
      if (at > 0) stack.splice(at, 1);
    }
    this.render(true);
  }

  /** Takes away all screens of a section but its first. */
  reset(section: Section): void {
    this.#stacks[section].splice(1);
    this.render(true);
  }

  show(section: Section): void {
    this.section = section;
    this.render(true);
    this.screen.shown?.();
  }

  say(about: About, notice: Notice): void {
    this.notices.set(about, notice);
    this.update();
  }

  dismiss(about: About): void {
    this.notices.delete(about);
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
        this.state = { is: "failed", why: sentenceOf(error) };
        // Cells that wait are told at once.
        this.host.functions.refuse(sentenceOf(error));
      }
    }
    this.update();
  }

  /**
   * Changes the instruments in the workbook, and has the cells follow.
   *
   * @param said what is told when it is done
   * @param undo takes the change back
   * @returns whether it was done; if not, the user was told why
   */
  async change(edit: Edit, said: string, undo?: Edit): Promise<boolean> {
    try {
      const now = new Date().toISOString();
      const news = await this.#keeper.edit((set) => edit(set, now));
      const actions = undo ? [{ label: "Undo", run: () => void this.change(undo, "Undone.") }] : [];
      this.say("edit", { tone: "success", text: said, actions });
      void this.#take(news);
      return true;
    } catch (error) {
      this.#trouble(error);
      return false;
    }
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
  async work<T>(label: string, start: (work: Work) => Promise<T>): Promise<T | undefined> {
    try {
      return await this.tasks.run(label, start);
    } catch (error) {
      if (error instanceof Stopped) this.say("trouble", { tone: "info", text: "Stopped." });
      else this.#trouble(error);
      return undefined;
    }
  }

  /** Shows a cell to the user. */
  async showCell(cell: CellPlace): Promise<void> {
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
    const { functions } = this.host;
    let stale = changed;
    const before = this.state.is === "ready" ? this.state.set : undefined;
    if (set) {
      if (functions.use(set)) stale = [...changed, ...set.instruments.map(({ name }) => name)];
      this.state = { is: "ready", set, news };
    } else {
      functions.refuse(refused[0]?.problems[0] ?? "They are not in a form that this version reads.");
      this.state = { is: "unreadable", news };
    }
    if (unwritten !== undefined)
      this.say("trouble", {
        tone: "warning",
        text: `Instruments that were brought together are not written into the workbook yet: ${sentenceOf(unwritten)}`,
      });
    for (const { name, profile, by } of overruled)
      this.say("others", {
        tone: "warning",
        text: by
          ? `Someone changed "${name}" later than you. Theirs stands now.`
          : `Someone deleted "${name}" later than you changed it.`,
        details: [`Yours was: ${describe(profile)}`],
        actions: [
          {
            label: "Take mine",
            run: () => void this.change((all, now) => put(all, profile, now), `"${name}" is yours again.`),
          },
        ],
      });
    this.update();
    await this.sweep.changed(stale, before);
  }
}
