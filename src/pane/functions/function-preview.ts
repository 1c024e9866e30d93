import { html, nothing, type TemplateResult } from "lit";
import type { InstrumentSet } from "../../instruments/set.js";
import type { ShownValue } from "../../changes/changed-cell.js";
import type { RawCells } from "../../functions/contract/cell-value.js";
import type { Host } from "../ports.js";
import { sentenceOf } from "../parts/failure.js";
import { couldBeCells, type Written } from "./written-argument.js";

/** What a formula would return before it is inserted. */
export type Preview =
  | { readonly is: "result"; readonly rows: readonly (readonly ShownValue[])[] }
  | { readonly is: "problem"; readonly argument: number; readonly text: string };

/** Rows and columns of a preview; the sheet shows the rest. */
const MOST_ROWS = 6;
const MOST_COLUMNS = 5;

/** Calculates with the same code as the cells, from the current content of the workbook. */
export async function preview(
  host: Host,
  name: string,
  args: readonly Written[],
  set: InstrumentSet,
): Promise<Preview> {
  const cells: (RawCells | undefined)[] = [];
  for (const [i, arg] of args.entries()) {
    if (arg.is === "cells") {
      if (!couldBeCells(arg.reference))
        return {
          is: "problem",
          argument: i,
          text: `"${arg.reference.slice(0, 30)}" is neither a number nor cells such as B2 or B2:B9.`,
        };
      try {
        cells.push((await host.selection.at(arg.reference)).rows);
      } catch (error) {
        return { is: "problem", argument: i, text: sentenceOf(error) };
      }
    } else cells.push(arg.is === "value" ? [[arg.value]] : undefined);
  }
  return { is: "result", rows: host.functions.evaluate(name, cells, set) };
}

/** A result as a cell shows it. */
export function cellText(result: ShownValue): TemplateResult | string {
  if (typeof result === "number") return String(Number(result.toPrecision(7)));
  if (typeof result === "boolean") return result ? "TRUE" : "FALSE";
  if (typeof result === "string") return result;
  return html`<span class="cell-error">${result.code}</span>`;
}

/** The result as a sheet would show it, with the message of its first error. */
export function previewView(rows: readonly (readonly ShownValue[])[]): TemplateResult {
  const columns = rows[0]?.length ?? 0;
  const first = rows.flat().find((cell) => typeof cell === "object");
  const cut = rows.length > MOST_ROWS || columns > MOST_COLUMNS;
  return html`<div class="result">
    <table aria-label="Result">
      <tbody>
        ${rows.slice(0, MOST_ROWS).map(
          (row) =>
            html`<tr>
              ${row.slice(0, MOST_COLUMNS).map((cell) => html`<td>${cellText(cell)}</td>`)}
            </tr>`,
        )}
      </tbody>
    </table>
    ${cut ? html`<p class="hint">${rows.length} rows, ${columns} columns</p>` : nothing}
    ${first ? html`<p class="error">${first.message}</p>` : nothing}
  </div>`;
}
