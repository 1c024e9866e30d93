import { html, nothing, type TemplateResult } from "lit";
import { cellCountText, changedTables, functionLines } from "./changed-table.js";
import type { Pane } from "../pane.js";
import { formulaCount } from "../parts/usage.js";
import { functionChanges, type WorkbookChange } from "./workbook-change.js";

/** What would change in the workbook: a summary, and the first cells one by one. */
export function workbookChangeView(pane: Pane, { looked, changed, unseen }: WorkbookChange): TemplateResult {
  const users = looked + unseen.length;
  return html`<div role="status">
      <p>
        ${
          users === 0
            ? "No formula uses this instrument yet."
            : changed.length === 0
              ? `${formulaCount(users)} use it; ${unseen.length === 0 ? "none would change" : "of those that can be looked at, none would change"}.`
              : `${cellCountText(changed.length)} would change.`
        }
      </p>
      ${functionLines(functionChanges(changed))}
      ${
        unseen.length > 0
          ? html`<p>
              ${formulaCount(unseen.length)} cannot be looked at beforehand, because they calculate more than
              a single call. They follow when you apply.
            </p>`
          : nothing
      }
    </div>
    ${changedTables(pane, ["Now", "Then"], changed)}
    ${changed.length > 0 ? html`<p class="hint">Cells that are calculated from these follow.</p>` : nothing}`;
}
