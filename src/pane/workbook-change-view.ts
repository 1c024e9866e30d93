import { html, nothing, type TemplateResult } from "lit";
import { cellText } from "./function-preview.js";
import type { CellResult } from "./ports.js";
import { formulaCount } from "./usage.js";
import type { ChangedCell, FunctionChange, WorkbookChange } from "./workbook-change.js";

/** The sheet itself shows the rest, once it is applied. */
const MOST_ROWS = 25;

const cellCount = (n: number): string => `${n} ${n === 1 ? "cell" : "cells"}`;

function functionLine({ name, cells, most }: FunctionChange): TemplateResult {
  const by = most === undefined ? "errors come or go" : `by at most ${Number(most.toPrecision(3))}`;
  return html`<li><code>${name}</code>: ${cellCount(cells)}, ${by}</li>`;
}

/** A result, and why, if it is an error. */
function resultText(result: CellResult | undefined): TemplateResult | string {
  if (result === undefined) return "–";
  return typeof result === "object"
    ? html`<span title=${result.message}>${cellText(result)}</span>`
    : cellText(result);
}

function row({ sheet, address, now, then }: ChangedCell): TemplateResult {
  return html`<tr>
    <th scope="row" dir="auto">${sheet} ${address}</th>
    <td>${resultText(now)}</td>
    <td>${resultText(then)}</td>
  </tr>`;
}

/** What would change in the workbook: how much in all, and the first cells one by one. */
export function workbookChangeView({ looked, changed, functions, unseen }: WorkbookChange): TemplateResult {
  const users = looked + unseen.length;
  return html`<div role="status">
      <p>
        ${
          users === 0
            ? "No formula uses this instrument yet."
            : changed.length === 0
              ? `${formulaCount(users)} use it; ${unseen.length === 0 ? "none would change" : "of those that can be looked at, none would change"}.`
              : `${cellCount(changed.length)} would change.`
        }
      </p>
      ${
        functions.length > 0
          ? html`<ul>
              ${functions.map(functionLine)}
            </ul>`
          : nothing
      }
      ${
        unseen.length > 0
          ? html`<p>
              ${formulaCount(unseen.length)} cannot be looked at beforehand, because they calculate more than
              a single call. They follow when you apply.
            </p>`
          : nothing
      }
    </div>
    ${
      changed.length === 0
        ? nothing
        : html`<div class="result" role="region" aria-label="Cells that would change" tabindex="0">
            <table class="figures" aria-label="Cells that would change">
              <thead>
                <tr>
                  <th scope="col">Cell</th>
                  <th scope="col">Now</th>
                  <th scope="col">Then</th>
                </tr>
              </thead>
              <tbody>
                ${changed.slice(0, MOST_ROWS).map(row)}
              </tbody>
            </table>
          </div>`
    }
    ${changed.length > MOST_ROWS ? html`<p class="hint">… and ${changed.length - MOST_ROWS} more</p>` : nothing}
    ${changed.length > 0 ? html`<p class="hint">Cells that are calculated from these follow.</p>` : nothing}`;
}
