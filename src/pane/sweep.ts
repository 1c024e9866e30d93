import type { InstrumentSet } from "../instruments/set.js";
import { sentenceOf } from "./failure.js";
import type { Notice } from "./notices.js";
import type { Formulas, OurFormula, Report } from "./ports.js";
import { Stopped, type Tasks } from "./tasks.js";
import { affectedBy, formulaCount } from "./usage.js";

/** What became of a sweep, in words. */
export function reportNotice({ done, failed }: Report, what: string): Notice {
  const text = `${formulaCount(done)} ${what}.`;
  if (failed.length === 0) return { tone: "success", text };
  return {
    tone: "warning",
    text: `${text} ${formulaCount(failed.length)} could not be reached and may show old results.`,
    details: failed.map(({ sheet, address, why }) => `${sheet} ${address}: ${why}`),
  };
}

/** Keeps the cells in step with the instruments: those that use a changed one are calculated again, and no others. */
export class Sweep {
  /** All formulas of ours as last found; undefined before they were first looked for. */
  formulas: readonly OurFormula[] | undefined;
  readonly #stale = new Set<string>();
  /** The instruments that the cells still show, as far as they are known. */
  #before: InstrumentSet | undefined;
  #running = false;

  constructor(
    private readonly host: Formulas,
    private readonly tasks: Tasks,
    private readonly say: (notice: Notice) => void,
    private readonly update: () => void,
    private readonly showChanges: (names: readonly string[], before: InstrumentSet) => void,
  ) {}

  /** Looks for our formulas again. Where that fails or is stopped, the last count stands. */
  async find(): Promise<void> {
    try {
      this.formulas = await this.tasks.run("Looking for formulas", (work) => this.host.find(work));
    } catch (error) {
      if (!(error instanceof Stopped)) this.say({ tone: "error", text: sentenceOf(error) });
    }
    this.update();
  }

  /**
   * Has everything calculated again that uses one of these.
   *
   * @param before the instruments as they were; undefined where nobody knows
   */
  async changed(names: readonly string[], before?: InstrumentSet): Promise<void> {
    if (this.#stale.size === 0) this.#before = before;
    for (const name of names) this.#stale.add(name);
    if (this.#running || this.#stale.size === 0) return;
    this.#running = true;
    try {
      while (this.#stale.size > 0) await this.#once();
    } catch (error) {
      const again = { label: "Go on", run: () => void this.changed([]) };
      const text =
        error instanceof Stopped
          ? "Stopped. Some formulas still show what the instruments gave before."
          : `${sentenceOf(error)} Some formulas may still show what the instruments gave before.`;
      this.say({ tone: error instanceof Stopped ? "warning" : "error", text, actions: [again] });
    } finally {
      this.#running = false;
      this.update();
    }
  }

  async #once(): Promise<void> {
    const names = [...this.#stale];
    const found = await this.tasks.run("Looking for formulas", (work) => this.host.find(work));
    this.formulas = found;
    const affected = affectedBy(found, names);
    if (affected.length > 0) {
      const report = await this.tasks.run("Calculating again", (work) => this.host.rerun(affected, work));
      const notice = reportNotice(report, "calculated again");
      const before = this.#before;
      const run = (): void => {
        if (before) this.showChanges(names, before);
      };
      this.say(before ? { ...notice, actions: [{ label: "What changed", run }] } : notice);
    }
    // Only now: what is stopped or fails on the way stays stale.
    for (const name of names) this.#stale.delete(name);
  }
}
