import release from "../../package.json";
import type { Check } from "../check/check.js";
import type { HandOverReport } from "../handover/values.js";
import type { Job } from "./jobs.js";

/** Report on one workbook of a run: its findings, what became of its formulas in a copy, or why it was refused. */
export type Told = { readonly job: Job } & (
  | { readonly check: Check }
  | { readonly copy: HandOverReport; readonly kept: number }
  | { readonly refused: string }
);

/** Whether scripts should stop because of it. */
export const isGrave = (told: Told, strict: boolean): boolean =>
  "refused" in told ||
  ("check" in told &&
    told.check.findings.some(({ severity }) => severity === "fault" || (strict && severity === "doubt")));

/**
 * The reports for machines. Fields are added, never renamed; the format number goes up if the meaning of one changes.
 */
export function toldJson(all: readonly Told[]): string {
  const workbooks = all.map(({ job: { input: workbook, output }, ...told }) => {
    if ("refused" in told) return { workbook, refused: told.refused };
    if ("check" in told) return { workbook, sheets: told.check.sheets, findings: told.check.findings };
    const { formulas, live, values, errors } = told.copy;
    return { workbook, copy: output, formulas, live, values, errors: errors.length, kept: told.kept };
  });
  return JSON.stringify({ format: 1, gylesheet: release.version, workbooks }, null, 2);
}
