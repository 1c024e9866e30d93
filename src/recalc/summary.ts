import { addressOf } from "../engine/references/address.js";
import type { CellFunctions } from "../engine/ours/cell-functions.js";
import type { SheetPlace } from "../cells/place.js";
import { callsOurs } from "../formulas/formula-text.js";
import type { WorkbookModel } from "../workbook/model.js";
import type { Job } from "./jobs.js";
import type { FileOutcome } from "./recalculate-file.js";

const MAX_LINES = 50;

const count = (n: number, of: string): string => `${n} ${of}${n === 1 ? "" : "s"}`;

/** Names and texts of a workbook may hold anything; a terminal must show it, not obey it. */
export const printable = (text: string): string => text.replace(/[\u0000-\u001f\u007f-\u009f]+/g, " ");

/** What became of our formulas in a copy. */
function copyCount(report: FileOutcome["report"]): string {
  if (!report || report.live + report.values === 0) return "";
  const all = count(report.formulas, "formula");
  const isLive = report.live + report.notLive.length > 0;
  return isLive ? `, ${report.live} of ${all} live, ${report.values} as values` : `, ${all} as values`;
}

const holdsOurs = ({ sheets }: WorkbookModel, functions: CellFunctions): boolean =>
  sheets.some(({ cells }) => cells.some(({ formula }) => formula && callsOurs(formula.text, functions)));

const repairCount = ({ repaired }: FileOutcome): string =>
  repaired > 0 ? `, ${count(repaired, "formula")} written anew` : "";

/** How many formulas kept their values because their instrument is not in the workbook. */
export const keptForInstruments = ({ notes }: Pick<FileOutcome, "notes">): number =>
  notes.filter(({ kind }) => kind === "instrument-missing").length;

function keptCount(outcome: FileOutcome): string {
  const kept = keptForInstruments(outcome);
  return kept === 0 ? "" : `, ${count(kept, "formula")} kept for want of an instrument`;
}

const ADVICE = "  Add what is missing in the Gylesheet pane, or give it with --instruments.";

const trusted = ", formulas that depend on ours written without a look at their stored values";

/** What happened to a workbook: what was recalculated, each error with its cell and message, and notes. */
export function summary(
  { input, output }: Job,
  outcome: FileOutcome,
  functions: CellFunctions,
  uncalculated: boolean,
): string {
  const { book, counts, errors, notes, model, written, report } = outcome;
  if (counts.recalculated + notes.length === 0 && !holdsOurs(model, functions))
    return `${printable(input)}: no Gylesheet formulas, nothing to recalculate.`;
  const address = ({ sheet, row, column }: SheetPlace): string =>
    printable(addressOf({ sheet: book.sheetNamed(sheet) ?? 0, row, column }, book));
  const lines = [
    ...errors.map((error) => `  ${address(error)}  ${error.code}  ${printable(error.message)}`),
    ...notes.map((note) => `  ${address(note)}  note  ${printable(note.message)}`),
    ...(report?.notLive ?? []).map((cell) => `  ${address(cell)}  a value, not live: ${printable(cell.why)}`),
  ];
  const left = lines.length - MAX_LINES;
  const place = output === input ? "" : ` → ${printable(output)}`;
  return [
    `${printable(input)}${place}: ${count(counts.recalculated, "formula")} recalculated, ${count(counts.changed, "cell")} changed, ${count(errors.length, "error")}${keptCount(outcome)}${copyCount(report)}${repairCount(outcome)}${uncalculated ? trusted : ""}${written ? "" : ", nothing to write"}.`,
    ...lines.slice(0, MAX_LINES),
    ...(left > 0 ? [`  … and ${left} more.`] : []),
    ...(keptForInstruments(outcome) > 0 ? [ADVICE] : []),
  ].join("\n");
}
