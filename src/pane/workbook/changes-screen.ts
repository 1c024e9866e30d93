import { html, nothing, type TemplateResult } from "lit";
import { cellCountText, changedTables, functionLines, saveChanges } from "./changed-table.js";
import type { CellActions } from "../parts/cell-actions.js";
import type { Screen } from "../parts/screen.js";
import { formulaCount } from "../parts/usage.js";
import { functionChanges, type WorkbookChange } from "./workbook-change.js";

/** Shows how a change of instruments affected the cells. */
export class ChangesScreen implements Screen {
  readonly title = "What changed";

  constructor(
    private readonly pane: CellActions,
    private readonly change: WorkbookChange,
  ) {}

  view(): TemplateResult {
    const { changed, unseen } = this.change;
    return html`<h2>In the workbook</h2>
      <div role="status">
        <p>
          ${changed.length === 0 ? "No cell shows anything else." : `${cellCountText(changed.length)} changed.`}
        </p>
        ${functionLines(functionChanges(changed))}
        ${
          unseen.length > 0
            ? html`<p>
                ${formulaCount(unseen.length)} calculate more than a single call, so what they showed before
                is not known.
              </p>`
            : nothing
        }
      </div>
      ${changedTables(this.pane, ["Before", "After"], changed)} ${saveChanges(this.pane, changed)}`;
  }
}
