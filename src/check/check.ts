import { cellRuns } from "./cell-runs.js";
import { errorFindings, uncalculated } from "./errors.js";
import { severities, type Finding, type Severity, type Spotted } from "./finding.js";
import { inventory, type SheetCount } from "./inventory.js";
import { instrumentNames } from "./instrument-names.js";
import { findingSentence } from "./messages.js";
import { seen, type CheckedBook, type Seen } from "./own-calls-seen.js";
import { offScale } from "./readings.js";
import { otherUnit } from "./temperatures.js";
import { repairs, unbound, unboundFormulas } from "./unbound.js";
import { gravityCells, mixedGravities, numbersAsText } from "./written-numbers.js";
import type { CellChange } from "../workbook/model.js";

export interface Check {
  readonly sheets: readonly SheetCount[];
  /** By severity, then in the order of sheets and columns. */
  readonly findings: readonly Finding[];
  /** Rewrites formulas that the spreadsheet program does not bind to our functions. */
  readonly repairs: readonly CellChange[];
}

const order: readonly Severity[] = ["fault", "doubt", "note"];

/** Checks a workbook that was just recalculated. Changes nothing. */
export function checkWorkbook(given: CheckedBook): Check {
  const look = seen(given);
  const { instruments, formulas } = look;
  const calls = formulas.flatMap((formula) => formula.calls);
  const unitLike = otherUnit(calls, instruments);
  const offScales = once(calls.flatMap((call) => offScale(call, instruments)));
  const texts = once(calls.flatMap(numbersAsText));
  const { missing, unused } = instrumentNames(look);
  const untied = unboundFormulas(look);
  const told = missing.map(({ formula }) => formula);
  const left = uncalculated(look, [...untied, ...told]);
  const spotted = [
    ...unbound(untied),
    ...missing,
    ...offScales,
    ...texts,
    ...errorFindings(
      look,
      [...unitLike, ...offScales, ...texts].map(({ at }) => at),
      told,
    ),
    ...left,
    ...unitLike,
    ...mixedGravities(calls.flatMap(gravityCells)),
  ];
  const sheets = inventory(look, [...look.errors, ...left.filter(({ kind }) => kind === "error")]);
  const findings = [
    ...together(spotted, look),
    ...unused.map((name): Finding => wide("unused-instrument", name)),
    ...sheets
      .filter(({ isProtected }) => isProtected)
      .map(({ sheet }): Finding => ({ ...wide("protected-sheet", ""), sheet })),
  ];
  const rank = ({ severity }: Finding): number => order.indexOf(severity);
  return { sheets, findings: findings.sort((a, b) => rank(a) - rank(b)), repairs: repairs(untied, look) };
}

/** A finding about more than single cells. */
const wide = (kind: Finding["kind"], about: string): Finding => ({
  kind,
  severity: severities[kind],
  cells: [],
  count: 0,
  says: findingSentence(kind, about, []),
});

/** Removes duplicates: many formulas may read the same cell. */
function once(spotted: readonly Spotted[]): Spotted[] {
  const cells = new Map(
    spotted.map((each) => [`${each.kind},${each.at.sheet},${each.at.row},${each.at.column}`, each]),
  );
  return [...cells.values()];
}

/** Groups equal findings within a column. */
function together(spotted: readonly Spotted[], { book }: Seen): Finding[] {
  const groups = new Map<string, Spotted[]>();
  for (const each of spotted) {
    const key = JSON.stringify([each.kind, each.at.sheet, each.at.column, each.about]);
    const group = groups.get(key) ?? [];
    groups.set(key, group);
    group.push(each);
  }
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    if (!first) return [];
    const { kind, about, at } = first;
    return {
      kind,
      severity: severities[kind],
      sheet: book.sheetNames[at.sheet] ?? "",
      cells: cellRuns(group.map((each) => each.at)),
      count: group.length,
      says: findingSentence(
        kind,
        about,
        group.map(({ value }) => value),
      ),
    };
  });
}
