// Recalculates everything and compares the results before and after.
import type { CellAddress } from "../../cells/place.js";
import {
  asShown,
  changedCells,
  showsSame,
  type ChangedCell,
  type ShownValue,
} from "../../changes/changed-cell.js";
import { calledFormulas, type CalledFormula } from "./called-formulas.js";
import { areaAt } from "../../changes/cell-name.js";
import type { RawCells } from "../../functions/contract/cell-value.js";
import type { Host } from "../ports.js";
import type { OurFormula, Report, Work } from "../ports/formulas-port.js";
import { addressKey } from "../parts/usage.js";
import type { InstrumentSet } from "../../instruments/set.js";

/** Result of recalculating the workbook. */
export interface RecalculationResult {
  /** Number of formulas found. */
  readonly formulas: number;
  readonly report: Report;
  readonly changed: readonly ChangedCell[];
  /** Cells that still show something other than their function returns. */
  readonly stuck: readonly CellAddress[];
  /** Formulas that were left alone. */
  readonly kept: readonly OurFormula[];
}

/** What a formula's cells show, and what its function returns; undefined if it does more than a single call. */
interface Seen extends CalledFormula {
  readonly shown: readonly (readonly ShownValue[])[];
  readonly given: readonly (readonly ShownValue[])[] | undefined;
  /**
   * The rest of the formula changes the result of its call, or the cell shows an older result: only another check can
   * tell.
   */
  readonly differs: boolean;
}

/** Results may arrive late, in groups: the most checks. */
const LOOKS = 6;
/** The most checks made only for formulas that may change the result of their call. */
const LOOKS_AT_OTHERS = 2;
const BETWEEN_LOOKS_MS = 500;

/** The most cells that any host returns at once. */
const MOST_CELLS = 10_000;

/**
 * Recalculates all our formulas.
 *
 * @param keeps selects the formulas to leave alone
 * @throws the reason of `work.signal` once it is aborted, and anything that the host rejects with. Formulas
 * recalculated until then stay so.
 */
export async function recalculateAll(
  host: Host,
  set: InstrumentSet,
  work: Work,
  keeps: (all: readonly OurFormula[]) => readonly OurFormula[] = () => [],
): Promise<RecalculationResult> {
  const all = await host.formulas.find(work);
  const kept = keeps(all);
  const spared = new Set(kept.map(addressKey));
  const meant = (formulas: readonly OurFormula[]): OurFormula[] =>
    formulas.filter((formula) => !spared.has(addressKey(formula)));
  const seenNow = async (): Promise<Seen[]> => seen(host, meant(await host.formulas.find(work)), set, work);
  const before = await seen(host, meant(all), set, work);
  const report = await host.formulas.recalculate(
    before.map(({ formula }) => formula),
    work,
  );
  let after = await seenNow();
  const isDone = (looks: number): boolean =>
    !after.some(isLate) && (looks >= LOOKS_AT_OTHERS || !after.some(({ differs }) => differs));
  for (let looks = 1; looks < LOOKS && !isDone(looks); looks++) {
    await new Promise((resolve) => setTimeout(resolve, BETWEEN_LOOKS_MS));
    after = await seenNow();
  }
  const shownBefore = new Map(before.map(({ formula, shown }) => [addressKey(formula), shown]));
  return {
    formulas: before.length,
    report,
    changed: after.flatMap((each) =>
      changedCells(
        each.formula,
        each.call?.name,
        shownBefore.get(addressKey(each.formula)) ?? [],
        each.shown,
        () => each.call && host.functions.plusMinus(each.call.name, each.call.args, set),
      ),
    ),
    stuck: after.filter(isLate).map(({ formula: { sheet, address } }) => ({ sheet, address })),
    kept,
  };
}

/** Whether it does not show its function's result yet. */
function isLate({ shown, given }: Seen): boolean {
  if (!given) return shown.some((row) => row.some((cell) => showsSame(cell, busy)));
  // A result that has no room to spill is not work in progress.
  return !showsSame(shown[0]?.[0], given[0]?.[0]) && !showsSame(shown[0]?.[0], noRoom);
}

const busy: ShownValue = { code: "#BUSY!", message: "" };
const noRoom: ShownValue = { code: "#SPILL!", message: "" };

async function seen(host: Host, all: readonly OurFormula[], set: InstrumentSet, work: Work): Promise<Seen[]> {
  const { formulas, functions } = host;
  const found: Seen[] = [];
  for await (const { formula, call } of calledFormulas(formulas, all, work)) {
    const given = call && functions.evaluate(call.name, call.args, set);
    const isOne = !given || !call.isWhole || (given.length === 1 && given[0]?.length === 1);
    const shown = isOne
      ? [[asShown(formula.value)]]
      : (await shownBy(host, formula, given)).map((row) => row.map(asShown));
    const differs = call?.isWhole === false && !showsSame(shown[0]?.[0], given?.[0]?.[0]);
    found.push(
      differs
        ? { formula, call: undefined, shown, given: undefined, differs }
        : { formula, call, shown, given, differs },
    );
  }
  return found;
}

/** Values of the cells that a formula fills. */
async function shownBy(
  { selection }: Host,
  { sheet, address, value }: OurFormula,
  given: RawCells,
): Promise<RawCells> {
  const width = given[0]?.length ?? 1;
  const height = Math.floor(MOST_CELLS / width);
  if (height === 0) return [[value]];
  const rows: RawCells[number][] = [];
  for (let top = 0; top < given.length; top += height) {
    const area = areaAt(address, top, Math.min(given.length - top, height), width);
    const quoted = `'${sheet.replaceAll("'", "''")}'`;
    rows.push(...(await selection.at(`${quoted}!${area}`)).rows);
  }
  return rows;
}
