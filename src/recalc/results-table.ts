import { placeKey } from "../cells/place.js";
import { callsOurs } from "../formulas/formula-text.js";
import type { CellFunctions } from "../engine/ours/cell-functions.js";
import type { CellValue, Formula, SheetModel } from "../workbook/model.js";
import type { FileOutcome } from "./recalculate-file.js";
import { printable } from "./summary.js";

const WIDEST = 28;

type Cells = (row: number, column: number) => CellValue;

/** Every sheet with results of ours, as a table: the rows that hold them, with the labels to their left and above. */
export function resultsTable({ model, changes }: FileOutcome, functions: CellFunctions): string {
  const changed = new Map(
    changes.map((change) => [`${change.sheet}\n${change.row}\n${change.column}`, change]),
  );
  const tables = model.sheets.flatMap((sheet) => {
    const values = new Map<string, CellValue>();
    const ours: { row: number; column: number }[] = [];
    for (const cell of sheet.cells) values.set(`${cell.row},${cell.column}`, cell.value);
    for (const { sheet: name, row, column, value } of changed.values())
      if (name === sheet.name) values.set(placeKey(row, column), value);
    for (const { row, column, formula } of sheet.cells)
      if (formula && callsOurs(formula.text, functions))
        ours.push(
          ...filled(changed.get(`${sheet.name}\n${row}\n${column}`)?.formula ?? formula, row, column),
        );
    return ours.length === 0
      ? []
      : [table(sheet, ours, (row, column) => values.get(placeKey(row, column)) ?? null)];
  });
  return tables.join("\n\n");
}

function filled(formula: Formula, row: number, column: number): { row: number; column: number }[] {
  const { top, left, bottom, right } = formula.area ?? { top: row, left: column, bottom: row, right: column };
  return Array.from({ length: bottom - top + 1 }, (_, r) =>
    Array.from({ length: right - left + 1 }, (__, c) => ({ row: top + r, column: left + c })),
  ).flat();
}

function table(sheet: SheetModel, ours: readonly { row: number; column: number }[], at: Cells): string {
  const rows = [...new Set(ours.map(({ row }) => row))].sort((a, b) => a - b);
  const columns = [...new Set(ours.map(({ column }) => column))].sort((a, b) => a - b);
  const first = Math.min(...columns);
  // Columns to the left of the first result label the rows.
  const labels = Array.from({ length: Math.min(first, 2) }, (_, column) => column);
  const shown = [...labels, ...columns];
  const lines = rows.flatMap((row, i) => {
    const heading = headingRow(row, rows[i - 1] ?? -1, columns, at);
    const results = shown.map((column) => cellText(at(row, column)));
    return heading === undefined ? [results] : [shown.map((column) => textAt(heading, column, at)), results];
  });
  const widths = shown.map((_, i) => Math.max(...lines.map((line) => (line[i] ?? "").length), 1));
  return [printable(sheet.name), ...lines.map((line) => row(line, widths))].join("\n");
}

/** The nearest row above, but after the previous results, that has text over some result. */
function headingRow(row: number, before: number, columns: readonly number[], at: Cells): number | undefined {
  for (let above = row - 1; above > before; above--)
    if (columns.some((column) => textAt(above, column, at) !== "")) return above;
  return undefined;
}

function textAt(row: number, column: number, at: Cells): string {
  const value = at(row, column);
  return typeof value === "string" ? cellText(value) : "";
}

function row(cells: readonly string[], widths: readonly number[]): string {
  return `  ${cells.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join("  ")}`.trimEnd();
}

function cellText(value: CellValue): string {
  if (value === null) return "";
  if (typeof value === "object") return value.error;
  const text = typeof value === "number" ? String(Number(value.toPrecision(6))) : printable(String(value));
  return text.length > WIDEST ? `${text.slice(0, WIDEST - 1)}…` : text;
}
