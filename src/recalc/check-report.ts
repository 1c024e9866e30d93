import release from "../../package.json";
import type { Finding, Severity } from "../check/finding.js";
import type { Check } from "../check/check.js";
import type { Job } from "./jobs.js";
import { printable } from "./summary.js";

const titles: Readonly<Record<Severity, string>> = { fault: "Faults", doubt: "Doubtful", note: "To know" };

const placeOf = ({ sheet, cells }: Finding): string =>
  [sheet, cells.join(", ")].filter((part) => part !== undefined && part !== "").join("!");

/** Whether scripts are to stop at it. */
export const isGrave = ({ findings }: Check): boolean => findings.some(({ severity }) => severity !== "note");

/** What the check of a workbook found, for people. */
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
    ...sheets.map(
      ({ sheet, formulas: count, errors, isProtected }) =>
        `  ${printable(sheet)}: ${count} formula${count === 1 ? "" : "s"}, ${errors} in error${isProtected ? ", protected" : ""}`,
    ),
    ...lines,
  ].join("\n");
}

/** The same for machines. Fields are added, never renamed; the format goes up when one means something else. */
export function checkJson(checked: readonly { readonly job: Job; readonly check: Check }[]): string {
  const workbooks = checked.map(({ job, check: { sheets, findings } }) => ({
    workbook: job.input,
    sheets,
    findings,
  }));
  return JSON.stringify({ format: 1, gylesheet: release.version, workbooks }, null, 2);
}
