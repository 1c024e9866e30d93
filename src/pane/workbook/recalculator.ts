import type { InstrumentSet } from "../../instruments/set.js";
import { Turns } from "../../instruments/turns.js";
import { sentenceOf } from "../parts/failure.js";
import { Missing } from "./missing.js";
import type { Notices } from "../parts/notices.js";
import type { Formulas, OurFormula } from "../ports/formulas-port.js";
import type { FunctionsPort } from "../ports/functions-port.js";
import { Emitter } from "../source.js";
import { Stale } from "./stale.js";
import { Stopped, type Tasks } from "../parts/tasks.js";
import { reportNotice, Unreached } from "./unreached.js";
import { affectedBy, addressKey } from "../parts/usage.js";

/** The instruments to calculate with, or why there are none. */
type Instruments = { readonly set: InstrumentSet } | { readonly why: string };

/** Changes of instruments with which cells have been recalculated. */
export interface Since {
  readonly names: readonly string[];
  /** The instruments before the first change. */
  readonly before: InstrumentSet;
}

/**
 * Keeps the cells up to date with the instruments: recalculates those that use a changed one, and no others.
 *
 * All work on cells goes through one queue, and the functions get new instruments only between two jobs. Anything that
 * happens in between, such as another edit, an undo or a co-author's removal, therefore gets a pass of its own.
 */
export class Recalculator {
  /** All our formulas as last found; undefined before the first search. */
  formulas: readonly OurFormula[] | undefined;
  readonly missing = new Missing();
  /** The user wants to see what has changed. */
  readonly asked = new Emitter<Since>();
  readonly #turns = new Turns();
  readonly #stale = new Stale();
  readonly #unreached = new Unreached();
  /** The workbook's current instruments. */
  #wanted: Instruments | undefined;
  /** The instruments that the functions calculate with. */
  #used: Instruments | undefined;
  /** Changes since the cells were last up to date. */
  #since: { readonly names: Set<string>; readonly before: InstrumentSet | undefined } | undefined;
  #due: Promise<void> | undefined;
  /** Searches started, and the latest that has finished: an older one does not overwrite its result. */
  #looks = 0;
  #seen = 0;
  #kept = "[]";

  /** @param redraw fires when the pane must be redrawn */
  constructor(
    private readonly host: Formulas,
    private readonly functions: Pick<FunctionsPort, "use" | "refuse">,
    private readonly tasks: Tasks,
    private readonly notices: Notices,
    private readonly redraw: Emitter,
  ) {}

  /** Runs work on cells exclusively. Never await this from within such work. */
  inTurn<T>(work: () => Promise<T>): Promise<T> {
    return this.#turns.take(work);
  }

  /** Searches for our formulas again. If that fails or is stopped, the last result stays. */
  async find(): Promise<void> {
    try {
      this.#tellKept(this.missing.among(await this.look()));
    } catch (error) {
      if (!(error instanceof Stopped)) this.notices.say("cells", { tone: "error", text: sentenceOf(error) });
    }
    this.redraw.emit();
  }

  /**
   * All our formulas as they are now.
   *
   * @throws Stopped, or anything that the host rejects with
   */
  async look(): Promise<readonly OurFormula[]> {
    const mine = (this.#looks += 1);
    const found = await this.tasks.run("Looking for formulas", (work) => this.host.find(work));
    if (mine > this.#seen) {
      this.#seen = mine;
      this.formulas = found;
      this.#unreached.keepTo(found);
    }
    return found;
  }

  /**
   * Recalculates everything that uses one of these, with the workbook's current instruments.
   *
   * @returns once all cells are up to date, or the user was told which are not
   */
  changed(names: readonly string[], wanted: Instruments): Promise<void> {
    this.#wanted = wanted;
    this.#mark(names);
    return this.#goOn();
  }

  /** Passes the workbook's current instruments to the functions. Only within a turn. */
  adopt(): void {
    const wanted = this.#wanted;
    if (wanted === this.#used || !wanted) return;
    if ("set" in wanted) {
      if (this.functions.use(wanted.set)) this.#mark(wanted.set.instruments.map(({ name }) => name));
      this.missing.follow(wanted.set);
    } else this.functions.refuse(wanted.why);
    this.#used = wanted;
  }

  /** The user accepts that these formulas lose their results in the next pass. */
  agree(formulas: readonly OurFormula[]): void {
    this.missing.agree(formulas);
    // Their instruments may already be gone, and then nothing else would recalculate them.
    this.#mark(formulas.flatMap(({ instruments }) => instruments));
  }

  /** Recalculates formulas that kept their results, because the user wants it. */
  giveUp(kept: readonly OurFormula[]): Promise<void> {
    this.missing.agree(kept);
    const places = new Set(kept.map(addressKey));
    return this.inTurn(() =>
      this.#telling(async () => {
        this.adopt();
        const found = await this.look();
        await this.#follow(found, (formula) => places.has(addressKey(formula)));
      }),
    );
  }

  #mark(names: readonly string[]): void {
    if (names.length === 0) return;
    const before = this.#used && "set" in this.#used ? this.#used.set : undefined;
    this.#since ??= { names: new Set(), before };
    for (const name of names) this.#since.names.add(name);
    this.#stale.mark(names);
  }

  #goOn(): Promise<void> {
    // A turn that has begun continues until nothing is left, whatever happens meanwhile.
    this.#due ??= this.#turns.take(() =>
      this.#passes().finally(() => {
        this.#due = undefined;
        this.redraw.emit();
      }),
    );
    return this.#due;
  }

  #passes(): Promise<void> {
    return this.#telling(async () => {
      for (;;) {
        this.adopt();
        if (this.#stale.isEmpty || !this.#used || !("set" in this.#used)) break;
        const pass = this.#stale.begin();
        const found = await this.look();
        const affected = new Set(affectedBy(found, pass.names));
        await this.#follow(found, (formula) => affected.has(formula));
        // Only now: anything stopped or failed before this stays stale.
        pass.done();
      }
      if (this.#stale.isEmpty) this.#since = undefined;
    });
  }

  /** Recalculates some of the formulas, except those that would only lose a result. */
  async #follow(found: readonly OurFormula[], isMeant: (formula: OurFormula) => boolean): Promise<void> {
    const kept = new Set(this.missing.among(found));
    this.#tellKept([...kept]);
    const affected = found.filter((formula) => isMeant(formula) && !kept.has(formula));
    if (affected.length === 0) return;
    const report = await this.tasks.run("Calculating again", (work) => this.host.recalculate(affected, work));
    this.#unreached.took(affected, report);
    this.#tellDone(report.done);
  }

  /** Runs work whose failure leaves cells out of date, and reports that. */
  async #telling(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      const isStopped = error instanceof Stopped;
      this.notices.say("cells", {
        tone: isStopped ? "warning" : "error",
        text: isStopped
          ? "Stopped. Some formulas still show what the instruments gave before."
          : `${sentenceOf(error)} Some formulas may still show what the instruments gave before.`,
        actions: [{ label: "Go on", run: () => void this.#goOn() }],
      });
    }
  }

  #tellDone(done: number): void {
    const notice = reportNotice({ done, failed: this.#unreached.all }, "calculated again");
    const { before, names } = this.#since ?? {};
    const run = (): void => {
      if (before && names) this.asked.emit({ names: [...names], before });
    };
    this.notices.say("cells", before ? { ...notice, actions: [{ label: "What changed", run }] } : notice);
  }

  /** Told once for the same formulas, so that a dismissed notice does not come back unchanged. */
  #tellKept(kept: readonly OurFormula[]): void {
    const told = JSON.stringify(kept.map((each) => [addressKey(each), each.instruments]));
    if (told === this.#kept) return;
    this.#kept = told;
    if (kept.length === 0) this.notices.dismiss("missing");
    else
      this.notices.say(
        "missing",
        this.missing.notice(kept, () => void this.giveUp(kept)),
      );
  }
}
