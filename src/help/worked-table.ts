// The cells of a worked example, and their results.
import type { FunctionSpec } from "../functions/contract/function-spec.js";
import type { Result } from "../functions/contract/cell-value.js";
import { code, escape, table } from "./html.js";
import { shownCell, withUnit } from "./outcome.js";
import type { WorkedExample } from "./worked-example.js";

/** Heading and unit of each column, for results that fill several. */
const columns: Readonly<Partial<Record<string, readonly (readonly [heading: string, unit: string])[]>>> = {
  SEASON: [
    ["original", "SG"],
    ["final", "SG"],
    ["% vol", "% vol"],
    ["apparent attenuation, %", "%"],
    ["real attenuation, %", "%"],
  ],
  "FERMENT.SMOOTH": [["smooth gravity", "SG"]],
  "FERMENT.STAGES": [
    ["stage", ""],
    ["when", "date-time"],
    ["gravity", "SG"],
  ],
};

/** The unit of a single-cell result, from its last step. */
export const resultUnit = ({ steps }: WorkedExample): string => steps.at(-1)?.unit ?? "";

export function exampleCells({ cells }: WorkedExample): string {
  if (!cells) return "";
  const letters = Object.keys(cells.columns);
  const values = letters.map((letter) => cells.columns[letter]?.slice(1) ?? []);
  const rows = Array.from({ length: Math.max(...values.map((each) => each.length)) }, (_, r) => [
    String(cells.row + r),
    ...values.map((each) => escape(String(each[r] ?? ""))),
  ]);
  const headings = letters.map(
    (letter) => `${letter}<br><small>${escape(cells.columns[letter]?.[0] ?? "")}</small>`,
  );
  return table("Cells of the example", ["Row", ...headings], rows);
}

/** A cell as printed on the page, with the full value behind it. */
const data = (value: Result, text: string): string =>
  `<data value="${escape(String(value))}">${escape(text)}</data>`;

export function exampleResult({ name }: FunctionSpec, worked: WorkedExample): string {
  const { results, told } = worked;
  const filled = results.filter((row) => row.some((cell) => cell !== ""));
  const only = filled.length === 1 && filled[0]?.length === 1 ? filled[0][0] : undefined;
  if (only !== undefined) {
    const text = typeof only === "number" ? withUnit(only, resultUnit(worked)) : shownCell(only);
    const serial =
      resultUnit(worked) === "date-time" ? `, which the cell holds as ${code(shownCell(only))}` : "";
    return `<p class="result">gives ${data(only, text)}${serial}</p>`;
  }
  const own = columns[name] ?? [["result", resultUnit(worked)]];
  const rows = filled.map((row, r) => [
    String(r + 1),
    ...row.map((cell, c) => data(cell, shownCell(cell, own[c]?.[1]))),
  ]);
  const which =
    worked.steps.length > 0 ? `\n<p>Row ${told[0] + 1}, column ${told[1] + 1} of it came about so:</p>` : "";
  return `${table("Result", ["Row", ...own.map(([heading]) => escape(heading))], rows)}${which}`;
}
