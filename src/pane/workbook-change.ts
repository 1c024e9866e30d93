// What an edit of an instrument would do to the cells, found out before it is made.
import type { InstrumentSet } from "../instruments/set.js";
import { cellAt } from "./cell-name.js";
import type { Call, CellResult, Host, OurFormula, Work } from "./ports.js";
import { affectedBy } from "./usage.js";

/** A cell that would show something else. */
export interface ChangedCell {
  readonly sheet: string;
  readonly address: string;
  readonly now: CellResult | undefined;
  readonly then: CellResult | undefined;
}

/** What one function does in the workbook. */
export interface FunctionChange {
  readonly name: string;
  readonly cells: number;
  /** Greatest difference between two numbers; undefined where only errors come or go. */
  readonly most: number | undefined;
}

export interface WorkbookChange {
  /** Formulas that could be calculated here. */
  readonly looked: number;
  readonly changed: readonly ChangedCell[];
  readonly functions: readonly FunctionChange[];
  /** Formulas that use the instrument and calculate more than a single call. */
  readonly unseen: readonly OurFormula[];
}

/** So many formulas are looked at before the page may move again. */
const AT_A_TIME = 100;

/** Differences that no cell shows. */
const DUST = 1e-9;

const isSame = (now: CellResult | undefined, then: CellResult | undefined): boolean =>
  typeof now === "number" && typeof then === "number"
    ? Math.abs(now - then) <= DUST
    : typeof now === "object" && typeof then === "object"
      ? now.code === then.code && now.message === then.message
      : now === then;

/** The cells of one formula that would change. */
function changedBy(
  { sheet, address }: OurFormula,
  { name, args }: Call,
  { functions }: Host,
  before: InstrumentSet,
  after: InstrumentSet,
): ChangedCell[] {
  const [now, then] = [functions.evaluate(name, args, before), functions.evaluate(name, args, after)];
  const rows = Array.from({ length: Math.max(now.length, then.length) }, (_, down) => down);
  return rows.flatMap((down) => {
    const width = Math.max(now[down]?.length ?? 0, then[down]?.length ?? 0);
    return Array.from({ length: width }, (_, across) => ({
      sheet,
      address: cellAt(address, down, across),
      now: now[down]?.[across],
      then: then[down]?.[across],
    })).filter((cell) => !isSame(cell.now, cell.then));
  });
}

const differenceOf = ({ now, then }: ChangedCell): number[] =>
  typeof now === "number" && typeof then === "number" ? [Math.abs(then - now)] : [];

/**
 * Calculates all formulas that use an instrument, with the instruments as they are and as they would be. Writes nothing.
 *
 * @throws the reason of `work.signal` once it is stopped, and whatever the host rejects with
 */
export async function workbookChange(
  host: Host,
  before: InstrumentSet,
  after: InstrumentSet,
  instrument: string,
  work: Work,
): Promise<WorkbookChange> {
  const users = affectedBy(await host.formulas.find(work), [instrument]);
  const byFunction = new Map<string, ChangedCell[]>();
  const unseen: OurFormula[] = [];
  for (let begin = 0; begin < users.length; begin += AT_A_TIME) {
    work.signal.throwIfAborted();
    work.onProgress(begin, users.length);
    const some = users.slice(begin, begin + AT_A_TIME);
    const calls = await host.formulas.calls(some);
    some.forEach((formula, i) => {
      const call = calls[i];
      if (!call) unseen.push(formula);
      else
        byFunction.set(call.name, [
          ...(byFunction.get(call.name) ?? []),
          ...changedBy(formula, call, host, before, after),
        ]);
    });
    // The page draws its progress, and hears of a stop.
    await new Promise((resolve) => setTimeout(resolve));
  }
  const functions = [...byFunction].map(([name, cells]) => {
    const differences = cells.flatMap(differenceOf);
    return {
      name,
      cells: cells.length,
      most: differences.length > 0 ? differences.reduce((a, b) => Math.max(a, b)) : undefined,
    };
  });
  return {
    looked: users.length - unseen.length,
    changed: [...byFunction.values()].flat(),
    functions: functions.filter(({ cells }) => cells > 0),
    unseen,
  };
}
