// Calculates how another set of instruments changes the cells, without writing anything.
import type { InstrumentSet } from "../../instruments/set.js";
import { calledFormulas } from "./called-formulas.js";
import {
  asShown,
  changedCells,
  differenceOf,
  showsSame,
  type ChangedCell,
} from "../../changes/changed-cell.js";
import type { Host } from "../ports.js";
import type { OurFormula, Work } from "../ports/formulas-port.js";
import { affectedBy } from "../parts/usage.js";

/** How the results of one function change. */
export interface FunctionChange {
  readonly name: string;
  readonly cells: number;
  /** Greatest difference between two numbers; undefined if only errors appear or disappear. */
  readonly most: number | undefined;
}

export interface WorkbookChange {
  /** Number of formulas that could be calculated here. */
  readonly looked: number;
  readonly changed: readonly ChangedCell[];
  /** Formulas that use the instruments and do more than a single call. */
  readonly unseen: readonly OurFormula[];
}

/** Totals of the changes by function. */
export function functionChanges(changed: readonly ChangedCell[]): FunctionChange[] {
  const found = new Map<string, { cells: number; most: number | undefined }>();
  for (const cell of changed) {
    if (cell.by === undefined) continue;
    const { cells, most } = found.get(cell.by) ?? { cells: 0, most: undefined };
    const difference = differenceOf(cell);
    found.set(cell.by, {
      cells: cells + 1,
      most: difference === undefined ? most : Math.max(most ?? 0, Math.abs(difference)),
    });
  }
  return [...found].map(([name, change]) => ({ name, ...change }));
}

/**
 * Calculates all formulas that use some instruments, with the instruments before and after a change. Writes nothing.
 *
 * @param shownBy the instruments with which the cells show their current values
 * @throws the reason of `work.signal` once it is aborted, and anything that the host rejects with
 */
export async function workbookChange(
  { formulas, functions }: Host,
  before: InstrumentSet,
  after: InstrumentSet,
  instruments: readonly string[],
  work: Work,
  shownBy = before,
): Promise<WorkbookChange> {
  const users = affectedBy(await formulas.find(work), instruments);
  const changed: ChangedCell[] = [];
  const unseen: OurFormula[] = [];
  for await (const { formula, call } of calledFormulas(formulas, users, work)) {
    if (!call) {
      unseen.push(formula);
      continue;
    }
    const { name, args, isWhole } = call;
    const [[now] = []] = functions.evaluate(name, args, shownBy);
    // The rest of the formula may change the result of the call.
    if (!isWhole && !showsSame(asShown(formula.value), now)) {
      unseen.push(formula);
      continue;
    }
    const cells = changedCells(
      formula,
      name,
      functions.evaluate(name, args, before),
      functions.evaluate(name, args, after),
      () => functions.plusMinus(name, args, after),
    );
    for (const cell of cells) changed.push(cell);
  }
  return { looked: users.length - unseen.length, changed, unseen };
}
