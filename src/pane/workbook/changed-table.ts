import { html, nothing, type TemplateResult } from "lit";
import {
  differenceOf,
  significanceOf,
  type ChangedCell,
  type ShownValue,
  type Significance,
} from "../../changes/changed-cell.js";
import { changesTable } from "../../changes/changes-table.js";
import { cellText } from "../functions/function-preview.js";
import type { CellActions } from "../parts/cell-actions.js";
import type { FunctionChange } from "./workbook-change.js";

/** The sheet itself and the exported table show the rest. */
const MOST_ROWS = 25;

export const cellCountText = (n: number): string => `${n} ${n === 1 ? "cell" : "cells"}`;

/** Headings of the columns before and after. */
export type Columns = readonly [before: string, after: string];

function functionLine({ name, cells, most }: FunctionChange): TemplateResult {
  const by = most === undefined ? "errors come or go" : `by at most ${Number(most.toPrecision(3))}`;
  return html`<li><code>${name}</code>: ${cellCountText(cells)}, ${by}</li>`;
}

export const functionLines = (functions: readonly FunctionChange[]): TemplateResult | typeof nothing =>
  functions.length === 0
    ? nothing
    : html`<ul>
        ${functions.map(functionLine)}
      </ul>`;

/** A result, and its message if it is an error. */
function resultText(result: ShownValue | undefined): TemplateResult | string {
  if (result === undefined || result === "") return "–";
  return typeof result === "object"
    ? html`<span title=${result.message}>${cellText(result)}</span>`
    : cellText(result);
}

const sure = (plusMinus: number | undefined): string =>
  plusMinus === undefined ? "" : `± ${Number(plusMinus.toPrecision(2))}`;

function table(
  pane: CellActions,
  label: string,
  [before, after]: Columns,
  cells: readonly ChangedCell[],
): TemplateResult {
  const someSure = cells.some(({ plusMinus }) => plusMinus !== undefined);
  return html`<div class="result" role="region" aria-label=${label} tabindex="0">
      <table class="figures" aria-label=${label}>
        <thead>
          <tr>
            <th scope="col">Cell</th>
            <th scope="col">${before}</th>
            <th scope="col">${after}</th>
            ${someSure ? html`<th scope="col">Sure to</th>` : nothing}
          </tr>
        </thead>
        <tbody>
          ${cells.slice(0, MOST_ROWS).map(
            (cell) =>
              html`<tr>
                <th scope="row" dir="auto">
                  <button class="quiet" @click=${() => void pane.showCell(cell)}>
                    ${cell.sheet} ${cell.address}
                  </button>
                </th>
                <td>${resultText(cell.before)}</td>
                <td>${resultText(cell.after)}</td>
                ${someSure ? html`<td>${sure(cell.plusMinus)}</td>` : nothing}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>
    ${cells.length > MOST_ROWS ? html`<p class="hint">… and ${cells.length - MOST_ROWS} more</p>` : nothing}`;
}

const headings: Readonly<Record<Significance, readonly [title: string, says: string]>> = {
  beyond: ["By more than they are sure to", "These mean something: look at them again."],
  unknown: ["How sure is not known", "Nothing says how sure these are, so judge them yourself."],
  within: ["By less than they are sure to", "These are as right as they were."],
};

/** Sorts the largest change first; errors that appear or disappear come before all. */
const bySize = (a: ChangedCell, b: ChangedCell): number =>
  Math.abs(differenceOf(b) ?? Infinity) - Math.abs(differenceOf(a) ?? Infinity) || 0;

/** Offers the changes as a file. */
export function saveChanges(
  pane: CellActions,
  changed: readonly ChangedCell[],
): TemplateResult | typeof nothing {
  if (changed.length === 0) return nothing;
  return html`<div class="row">
    <button
      @click=${() => {
        pane.saveFile("what-changed.csv", changesTable(changed), "text/csv");
      }}
    >
      Save as a table (.csv)
    </button>
  </div>`;
}

/** Tables of cells that changed or would change, grouped by what it means. */
export function changedTables(
  pane: CellActions,
  columns: Columns,
  changed: readonly ChangedCell[],
): TemplateResult[] {
  return (["beyond", "unknown", "within"] as const).flatMap((weight) => {
    const cells = changed.filter((cell) => significanceOf(cell) === weight).sort(bySize);
    if (cells.length === 0) return [];
    const [title, says] = headings[weight];
    return [
      html`<h3>${title}: ${cellCountText(cells.length)}</h3>
        <p class="hint">${says}</p>
        ${table(pane, title, columns, cells)}`,
    ];
  });
}
