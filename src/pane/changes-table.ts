import { differenceOf, weightOf, type ChangedCell } from "./changed-cell.js";
import type { CellResult } from "./ports.js";

const weights = { beyond: "more than sure to", within: "less than sure to", unknown: "not known" } as const;

const textOf = (result: CellResult | undefined): string =>
  result === undefined ? "" : typeof result === "object" ? result.code : String(result);

/** RFC 4180. Text that a spreadsheet program would calculate is kept from it. */
function field(text: string): string {
  const safe = /^[=+@\t\r]|^-(?!\d)/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** What changed, as a table that any spreadsheet program opens (CSV). */
export function changesTable(changed: readonly ChangedCell[]): string {
  const lines = changed.map((cell) => {
    const difference = differenceOf(cell);
    return [
      cell.sheet,
      cell.address,
      cell.by ?? "",
      textOf(cell.before),
      textOf(cell.after),
      // Without the dust of binary fractions.
      difference === undefined ? "" : String(Number(difference.toPrecision(9))),
      cell.plusMinus === undefined ? "" : String(Number(cell.plusMinus.toPrecision(3))),
      weights[weightOf(cell)],
    ];
  });
  const head = ["Sheet", "Cell", "Function", "Before", "After", "Difference", "Sure to ±", "Changed by"];
  return [head, ...lines].map((line) => `${line.map(field).join(",")}\r\n`).join("");
}
