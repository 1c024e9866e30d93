import { differenceOf, significanceOf, type ChangedCell, type ShownValue } from "./changed-cell.js";

const significances = {
  beyond: "more than sure to",
  within: "less than sure to",
  unknown: "not known",
} as const;

const textOf = (result: ShownValue | undefined): string =>
  result === undefined ? "" : typeof result === "object" ? result.code : String(result);

/** RFC 4180. Text that a spreadsheet program would evaluate as a formula is escaped. */
function field(text: string): string {
  const safe = /^[=+@\t\r]|^-(?!\d)/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** The changes as a table for any spreadsheet program (CSV). */
export function changesTable(changed: readonly ChangedCell[]): string {
  return table([HEAD, ...changed.map(line)]);
}

/** The same for several workbooks. */
export function changesOfWorkbooks(
  workbooks: readonly { readonly workbook: string; readonly changed: readonly ChangedCell[] }[],
): string {
  const lines = workbooks.flatMap(({ workbook, changed }) =>
    changed.map((cell) => [workbook, ...line(cell)]),
  );
  return table([["Workbook", ...HEAD], ...lines]);
}

const HEAD = ["Sheet", "Cell", "Function", "Before", "After", "Difference", "Sure to ±", "Changed by"];

const table = (lines: readonly (readonly string[])[]): string =>
  lines.map((fields) => `${fields.map(field).join(",")}\r\n`).join("");

function line(cell: ChangedCell): string[] {
  const difference = differenceOf(cell);
  return [
    cell.sheet,
    cell.address,
    cell.by ?? "",
    textOf(cell.before),
    textOf(cell.after),
    // Without binary rounding errors.
    difference === undefined ? "" : String(Number(difference.toPrecision(9))),
    cell.plusMinus === undefined ? "" : String(Number(cell.plusMinus.toPrecision(3))),
    significances[significanceOf(cell)],
  ];
}
