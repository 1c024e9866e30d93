import { Emitter } from "../source.js";
import type { Questions } from "./question.js";
import { sections, type Screen, type Section } from "./screen.js";

/** Navigation between screens: a stack for each section. */
export class Screens {
  section: Section = "Instruments";
  /** The user is on a different screen now. */
  readonly moved = new Emitter();
  readonly #stacks: Record<Section, Screen[]> = {
    Instruments: [],
    Functions: [],
    Cell: [],
    Workbook: [],
    About: [],
  };

  /** @param changed fires on changes below the current screen */
  constructor(
    private readonly changed: Emitter,
    private readonly questions: Questions,
  ) {}

  /** The current screen. */
  get top(): Screen {
    const top = this.#stacks[this.section].at(-1);
    if (!top) throw new Error(`There is no screen in ${this.section}.`);
    return top;
  }

  /** The screen that going back leads to. */
  get below(): Screen | undefined {
    return this.#stacks[this.section].at(-2);
  }

  /** Starts with one root screen for each section. */
  start(roots: Readonly<Record<Section, Screen>>): void {
    for (const section of sections) this.#stacks[section] = [roots[section]];
    this.changed.emit();
  }

  open(screen: Screen, section = this.section): void {
    this.section = section;
    this.#stacks[section].push(screen);
    this.moved.emit();
  }

  /**
   * Replaces a screen that is still on its stack; screens that the user has opened since remain.
   *
   * @param wholly also removes the screens below it, so that going back leads to the root of the section
   * @returns whether the screen was still there
   */
  replace(old: Screen, screen: Screen, wholly = false): boolean {
    for (const section of sections) {
      const stack = this.#stacks[section];
      const at = stack.indexOf(old);
      if (at < 1) continue;
      const from = wholly ? 1 : at;
      stack.splice(from, at - from + 1, screen);
      this.#emit(section === this.section);
      return true;
    }
    return false;
  }

  /** Leaves the current screen; asks first if typed input would be lost. */
  async back(): Promise<void> {
    if (this.top.unsaved?.()) {
      const answer = await this.questions.ask({
        title: "Leave without saving?",
        text: "What you typed here is not saved.",
        answers: [{ answer: "leave", label: "Leave", tone: "danger" }],
      });
      if (answer !== "leave") return;
    }
    this.close(this.top);
  }

  /** Removes a screen from its stack. */
  close(screen: Screen): void {
    let moved = false;
    for (const section of sections) {
      const stack = this.#stacks[section];
      const at = stack.indexOf(screen);
      if (at < 1) continue;
      moved ||= section === this.section && screen === this.top;
      stack.splice(at, 1);
    }
    this.#emit(moved);
  }

  show(section: Section): void {
    this.section = section;
    this.moved.emit();
    this.top.shown?.();
  }

  #emit(moved: boolean): void {
    (moved ? this.moved : this.changed).emit();
  }
}
