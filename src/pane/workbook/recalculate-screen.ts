import { html, nothing, type TemplateResult } from "lit";
import { cellList } from "./cell-list.js";
import { cellCountText, changedTables, functionLines, saveChanges } from "./changed-table.js";
import type { Pane } from "../pane.js";
import type { OurFormula } from "../ports/formulas-port.js";
import { recalculateAll, type RecalculationResult } from "./recalculate-all.js";
import type { Screen } from "../parts/screen.js";
import { formulaCount } from "../parts/usage.js";
import { functionChanges } from "./workbook-change.js";

const notReadable =
  "The instruments of this workbook cannot be read, so nothing was recalculated: formulas that need one would lose their results. The Instruments section says what to do.";

/** Recalculates all our formulas and reports what changed. */
export class RecalculateScreen implements Screen {
  readonly title = "Calculate everything again";
  #done: RecalculationResult | undefined;

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

  #doneView({ formulas, report, changed, stuck, kept }: RecalculationResult): TemplateResult {
    return html`<h2 id="rerun-done" tabindex="-1">What changed</h2>
      <div role="status">
        <p>
          ${
            formulas === 0
              ? "There is no formula of Gylesheet's in this workbook."
              : `${formulaCount(report.done)} calculated again. ${changed.length === 0 ? "No cell shows anything else." : `${cellCountText(changed.length)} changed.`}`
          }
        </p>
        ${functionLines(functionChanges(changed))}
      </div>
      ${kept.length === 0 ? nothing : this.#keptView(kept)}
      ${cellList(this.pane, "Could not be reached", report.failed)}
      ${cellList(this.pane, "Still showing something else than the function gives", stuck)}
      ${changedTables(this.pane, ["Before", "After"], changed)} ${saveChanges(this.pane, changed)}`;
  }

  #keptView(kept: readonly OurFormula[]): TemplateResult {
    const { recalculator } = this.pane;
    return html`${cellList(this.pane, "Kept: an instrument is missing", kept)}
      <p>
        These show results of an instrument that is not in this workbook. Add or import it; recalculated
        without, they could show #N/A.
      </p>
      <div class="row">
        <button
          class="danger"
          @click=${async () => {
            await recalculator.giveUp(kept);
            await this.#run();
          }}
        >
          Recalculate ${kept.length === 1 ? "it" : "them"} all the same
        </button>
      </div>`;
  }

  async #run(): Promise<void> {
    const { pane } = this;
    if (pane.instruments.state.is !== "ready") {
      pane.notices.say("trouble", { tone: "error", text: notReadable });
      return;
    }
    this.#done = await pane.attempts.once(this, () =>
      pane.recalculator.inTurn(() => {
        pane.recalculator.adopt();
        const { missing } = pane.recalculator;
        return pane.attempts.work("Calculating everything again", (work) =>
          recalculateAll(pane.host, pane.instruments.set, work, (all) => missing.among(all)),
        );
      }),
    );
    pane.changed.emit();
    await Promise.resolve();
    document.getElementById("rerun-done")?.focus();
  }
}
