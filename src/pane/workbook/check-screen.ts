import type { CellAddress } from "../../cells/place.js";
import { html, nothing, type TemplateResult } from "lit";
import type { Pane } from "../pane.js";
import type { Finding } from "../../check/finding.js";
import type { Checked } from "../ports/workbook-port.js";
import type { Screen } from "../parts/screen.js";
import { formulaCount } from "../parts/usage.js";

const titles: Readonly<Record<Finding["severity"], string>> = {
  fault: "Faults",
  doubt: "Doubtful",
  note: "To know",
};

/** Cells of a finding listed one by one. */
const MOST_CELLS = 8;

/** Checks the workbook, links to what is wrong, and repairs what can be repaired. */
export class CheckScreen implements Screen {
  readonly title = "Check the workbook";
  #found: Checked | undefined;

  constructor(private readonly pane: Pane) {}

  view(): TemplateResult {
    return html`<p>
        Looks at every formula of Gylesheet's, at the cells it is given and at the instruments. Changes
        nothing.
      </p>
      <div class="row">
        <button class="primary" @click=${() => void this.#check()}>
          ${this.#found ? "Check again" : "Check"}
        </button>
      </div>
      ${this.#found ? this.#foundView(this.#found) : nothing}`;
  }

  #foundView({ sheets, findings, unbound }: Checked): TemplateResult {
    return html`<h2 id="check-found" tabindex="-1">
        ${findings.length === 0 ? "Nothing found" : `${findings.length} found`}
      </h2>
      ${
        sheets.length === 0
          ? html`<p role="status">There is no formula of Gylesheet's in this workbook.</p>`
          : sheets.map((sheet) => this.#sheet(sheet))
      }
      ${
        unbound.length === 0
          ? nothing
          : html`<div class="row">
              <button @click=${() => void this.#repair(unbound)}>
                Repair what shows #NAME?: ${formulaCount(unbound.length)}
              </button>
            </div>`
      }
      ${(["fault", "doubt", "note"] as const).map((severity) =>
        this.#group(
          titles[severity],
          findings.filter((finding) => finding.severity === severity),
        ),
      )}`;
  }

  #sheet({ sheet, formulas, errors, isProtected, functions }: Checked["sheets"][number]): TemplateResult {
    return html`<details>
      <summary>
        <strong dir="auto">${sheet}</strong>: ${formulaCount(formulas)},
        ${errors === 0 ? "none in error" : `${errors} in error`}${isProtected ? ", protected" : ""}
      </summary>
      <ul class="plain" aria-label="Functions in ${sheet}">
        ${functions.map(({ name, cells }) => html`<li>${name} ${this.#cells(sheet, cells)}</li>`)}
      </ul>
    </details>`;
  }

  #group(title: string, findings: readonly Finding[]): TemplateResult | typeof nothing {
    if (findings.length === 0) return nothing;
    return html`<h3>${title}</h3>
      <ul class="plain">
        ${findings.map(
          ({ sheet, cells, says }) =>
            html`<li>
              ${this.#cells(sheet ?? "", cells)}
              ${cells.length === 0 && sheet !== undefined ? html`<strong dir="auto">${sheet}</strong>` : nothing}
              ${cells.length > 0 || sheet !== undefined ? html`<br />` : nothing}${says}
            </li>`,
        )}
      </ul>`;
  }

  #cells(sheet: string, cells: readonly string[]): readonly (TemplateResult | string)[] {
    const shown = cells.slice(0, MOST_CELLS).map((cell) => this.#cell(sheet, cell));
    return cells.length > MOST_CELLS ? [...shown, `… and ${cells.length - MOST_CELLS} more`] : shown;
  }

  #cell(sheet: string, address: string): TemplateResult {
    return html`<button
      class="quiet"
      @click=${() => void this.pane.showCell({ sheet, address: address.replace(/:.*/, "") })}
    >
      ${sheet} ${address}
    </button>`;
  }

  async #check(): Promise<void> {
    const { pane } = this;
    const found = await pane.attempts.work("Checking the workbook", (work) => pane.host.check(work));
    if (!found) return;
    this.#found = found;
    pane.changed.emit();
    await Promise.resolve();
    document.getElementById("check-found")?.focus();
  }

  async #repair(cells: readonly CellAddress[]): Promise<void> {
    const { pane } = this;
    const report = await pane.recalculator.inTurn(() =>
      pane.attempts.work("Writing formulas anew", (work) => pane.host.formulas.repair(cells, work)),
    );
    if (!report) return;
    pane.report(report, "written anew");
    await this.#check();
  }
}
