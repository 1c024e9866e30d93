// A number is never replaced by #N/A without asking, only because an instrument is missing.
import { asShown } from "../../changes/changed-cell.js";
import { nameKey } from "../../instruments/name.js";
import type { InstrumentSet } from "../../instruments/set.js";
import type { Notice } from "../parts/notices.js";
import type { OurFormula } from "../ports/formulas-port.js";
import { formulaCount, addressKey } from "../parts/usage.js";

const formulaKey = (formula: OurFormula): string => `${addressKey(formula)}\n${formula.formula}`;

const showsResult = ({ value }: OurFormula): boolean => typeof asShown(value) !== "object";

const keysOf = (set: InstrumentSet): string[] => set.instruments.map(({ name }) => nameKey(name));

/** Finds the formulas that would lose their results if they were recalculated with the current instruments. */
export class Missing {
  #set: InstrumentSet | undefined;
  /** Instruments that were removed while the pane was open. */
  #gone = new Set<string>();
  /** Formulas that may depend on instruments removed before the workbook was opened. */
  #doubtful: Set<string> | undefined;
  readonly #agreed = new Set<string>();

  /** @param set the instruments from now on */
  follow(set: InstrumentSet): void {
    const here = new Set(keysOf(set));
    const known = [...this.#gone, ...(this.#set ? keysOf(this.#set) : [])];
    // Consent was given without the instrument that is now back.
    if ([...this.#gone].some((key) => here.has(key))) this.#agreed.clear();
    this.#gone = new Set(known.filter((key) => !here.has(key)));
    this.#set = set;
  }

  /** The user was told about these formulas and wants them recalculated all the same. */
  agree(formulas: readonly OurFormula[]): void {
    for (const formula of formulas) this.#agreed.add(formulaKey(formula));
  }

  /** Those formulas that keep their results. */
  among(formulas: readonly OurFormula[]): OurFormula[] {
    if (!this.#set) return [];
    const here = new Set(keysOf(this.#set));
    const names = (formula: OurFormula): boolean => namesOutside(formula, here).length > 0;
    const open = formulas.filter((each) => showsResult(each) && !this.#agreed.has(formulaKey(each)));
    this.#doubtful ??= new Set(
      here.size === 0 || open.some(names)
        ? open.filter(({ anyInstrument }) => anyInstrument).map(formulaKey)
        : [],
    );
    const doubtful = this.#doubtful;
    return open.filter(
      (each) =>
        names(each) || (each.anyInstrument && (this.#gone.size > 0 || doubtful.has(formulaKey(each)))),
    );
  }

  /** Notice about formulas that keep their results. */
  notice(kept: readonly OurFormula[], recalculate: () => void): Notice {
    const here = new Set(this.#set ? keysOf(this.#set) : []);
    const names = new Map<string, string>();
    for (const name of kept.flatMap((each) => namesOutside(each, here)))
      if (!names.has(nameKey(name))) names.set(nameKey(name), name);
    const one = kept.length === 1;
    const uses =
      names.size === 0
        ? `${one ? "works" : "work"} out which instrument to use, and it may be one that is missing`
        : `${one ? "needs" : "need"} ${listed([...names.values()])}, which ${names.size === 1 ? "is" : "are"} not in this workbook`;
    return {
      tone: "warning",
      text: `${formulaCount(kept.length)} ${uses}. ${one ? "Its result is" : "Their results are"} kept: add or import ${names.size > 1 ? "the instruments" : "the instrument"}, or ${one ? "it becomes" : "they become"} #N/A once recalculated.`,
      details: kept.map((each) => `${each.sheet} ${each.address}: ${why(namesOutside(each, here))}`),
      opens: one ? "Which cell" : "Which cells",
      actions: [{ label: "Recalculate all the same", run: recalculate }],
    };
  }
}

/** The most names in a sentence. */
const MOST_NAMES = 4;

/** Names of instruments as part of a sentence. */
export function listed(names: readonly string[]): string {
  const all = names.slice(0, MOST_NAMES).map((name) => `"${name}"`);
  const more = names.length - all.length;
  const last = more > 0 ? `${more} more` : all.pop();
  return all.length === 0 ? String(last) : `${all.join(", ")} and ${last}`;
}

const namesOutside = ({ instruments }: OurFormula, here: ReadonlySet<string>): string[] =>
  instruments.filter((name) => !here.has(nameKey(name)));

const why = (names: readonly string[]): string =>
  names.length === 0
    ? "works out which instrument to use."
    : `needs ${names.map((name) => `"${name}"`).join(", ")}.`;
