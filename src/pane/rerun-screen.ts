import { html, nothing, type TemplateResult } from "lit";
import { cellList } from "./cell-list.js";
import { cellCount, changedTables, functionLines, saveChanges } from "./changed-table.js";
import type { Pane } from "./pane.js";
import { rerunAll, type Rerun } from "./rerun-all.js";
import type { Screen } from "./screen.js";
import { formulaCount } from "./usage.js";
import { functionChanges } from "./workbook-change.js";

/** Has every formula of ours calculated again, and tells what changed. */
export class RerunScreen implements Screen {
  readonly title = "Calculate everything again";
  #done: Rerun | undefined;

  constructor(private readonly pane: Pane) {}

  view(): TemplateResult {
    return html`<p>
        Every formula of Gylesheet's in this workbook is calculated with the instruments as they are now. No
        other formula is touched, but those that depend on them follow.
      </p>
      <div class="row">
        <button class="primary" @click=${() => void this.#run()}>
          ${this.#done ? "Calculate again once more" : "Calculate again"}
        </button>
      </div>
      ${this.#done ? this.#doneView(this.#done) : nothing}`;
  }

  #doneView({ formulas, report, changed, stuck }: Rerun): TemplateResult {
    return html`<h2 id="rerun-done" tabindex="-1">What changed</h2>
      <div role="status">
        <p>
          ${
            formulas === 0
              ? "There is no formula of Gylesheet's in this workbook."
              : `${formulaCount(report.done)} calculated again. ${changed.length === 0 ? "No cell shows anything else." : `${cellCount(changed.length)} changed.`}`
          }
        </p>
        ${functionLines(functionChanges(changed))}
      </div>
      ${cellList(this.pane, "Could not be reached", report.failed)}
      ${cellList(this.pane, "Still showing something else than the function gives", stuck)}
      ${changedTables(this.pane, ["Before", "After"], changed)} ${saveChanges(this.pane, changed)}`;
  }

  async #run(): Promise<void> {
    const { pane } = this;
    const { host, set, state } = pane;
    if (state.is !== "ready") return;
    this.#done = await pane.work("Calculating everything again", (work) => rerunAll(host, set, work));
    pane.update();
    await Promise.resolve();
    document.getElementById("rerun-done")?.focus();
  }
}
