import { NothingReadable } from "../../instruments/keeper.js";
import { InstrumentsRefused } from "../../instruments/refusal.js";
import type { Work } from "../ports/formulas-port.js";
import type { Emitter } from "../source.js";
import { sentenceOf } from "./failure.js";
import type { Notices } from "./notices.js";
import type { Screen } from "./screen.js";
import { Stopped, type Tasks } from "./tasks.js";

/** Runs work for the user and reports failures. */
export class Attempts {
  readonly #busy = new Set<Screen>();

  constructor(
    private readonly tasks: Tasks,
    private readonly notices: Notices,
    private readonly changed: Emitter,
  ) {}

  /** Whether work for a screen is running. */
  isBusy(screen: Screen): boolean {
    return this.#busy.has(screen);
  }

  /** Runs work for a screen unless some is already running, so pressing a button twice does not run it twice. */
  async once<T>(screen: Screen, work: () => Promise<T>): Promise<T | undefined> {
    if (this.#busy.has(screen)) return undefined;
    this.#busy.add(screen);
    this.changed.emit();
    try {
      return await work();
    } finally {
      this.#busy.delete(screen);
      this.changed.emit();
    }
  }

  /**
   * Runs long work with progress.
   *
   * @returns undefined if it was stopped or failed; the user was told
   */
  work<T>(label: string, start: (work: Work) => Promise<T>): Promise<T | undefined> {
    return this.telling(() => this.tasks.run(label, start));
  }

  /**
   * Runs work that may fail or be stopped.
   *
   * @returns undefined in that case; the user was told
   */
  async telling<T>(work: () => Promise<T>): Promise<T | undefined> {
    try {
      return await work();
    } catch (error) {
      if (error instanceof Stopped) this.notices.say("trouble", { tone: "info", text: "Stopped." });
      else this.failed(error);
      return undefined;
    }
  }

  /** Reports an error to the user. */
  failed(error: unknown): void {
    const text =
      error instanceof NothingReadable
        ? "The workbook's instruments cannot be read, so nothing was changed."
        : sentenceOf(error);
    const details = error instanceof InstrumentsRefused ? error.problems : [];
    this.notices.say("trouble", { tone: "error", text, details });
  }
}
