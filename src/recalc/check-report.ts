import type { Finding, Severity } from "../check/finding.js";
import type { Check } from "../check/check.js";
import { quotedSheetName } from "../formulas/sheet-name.js";
import type { Job } from "./jobs.js";
import { printable } from "./summary.js";

const titles: Readonly<Record<Severity, string>> = { fault: "Faults", doubt: "Doubtful", note: "To know" };

const MAX_RUNS = 6;

/** Cells in the form of a reference: "'Brew day'!E4:E9". */
function placeOf({ sheet, cells }: Pick<Finding, "sheet" | "cells">): string {
  if (sheet === undefined) return "";
  if (cells.length === 0) return quotedSheetName(sheet);
  const more = cells.length - MAX_RUNS;
  return `${quotedSheetName(sheet)}!${cells.slice(0, MAX_RUNS).join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}

/** Findings of the check of a workbook, for people. */
export function checkText({ input }: Job, { sheets, findings }: Check): string {
  const formulas = sheets.reduce((sum, sheet) => sum + sheet.formulas, 0);
  const found = findings.length === 0 ? "nothing found" : `${findings.length} found`;
  const lines = (["fault", "doubt", "note"] as const).flatMap((severity) => {
    const some = findings.filter((finding) => finding.severity === severity);
    return some.length === 0
      ? []
      : [
          `  ${titles[severity]}`,
          ...some.map(
            (finding) =>
              `    ${[placeOf(finding), finding.says]
                .filter((part) => part !== "")
                .map(printable)
                .join("  ")}`,
          ),
        ];
  });
  return [
    `${printable(input)}: ${formulas} formula${formulas === 1 ? "" : "s"} of Gylesheet's checked, ${found}.`,
    ...sheets.flatMap(({ sheet, formulas: count, errors, isProtected, functions }) => [
      `  ${printable(sheet)}: ${count} formula${count === 1 ? "" : "s"}, ${errors} in error${isProtected ? ", protected" : ""}`,
      ...functions.map(({ name, cells }) => `    ${name}  ${printable(placeOf({ sheet, cells }))}`),
    ]),
    ...lines,
  ].join("\n");
}
