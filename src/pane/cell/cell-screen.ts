import { html, nothing, type TemplateResult } from "lit";
import { findInstrument } from "../../instruments/find.js";
import { explainedCalls, type ExplainedCall } from "./explained-call.js";
import { sentenceOf } from "../parts/failure.js";
import { fermentationChart } from "./fermentation-chart.js";
import { cellText } from "../functions/function-preview.js";
import { InstrumentScreen } from "../instruments/instrument-screen.js";
import { LoggedTemperatures } from "./logged-temperatures.js";
import type { Pane } from "../pane.js";
import type { Explanation } from "../../functions/explain.js";
import type { FunctionInfo } from "../ports/functions-port.js";
import type { SelectedFormula } from "../ports/selection-port.js";
import { quantity } from "./quantity.js";
import type { Screen } from "../parts/screen.js";

type Uncertainty = NonNullable<Explanation["uncertainty"]>;

type Found =
  | { readonly is: "nothing" }
  | { readonly is: "trouble"; readonly why: string }
  | { readonly is: "formula"; readonly formula: SelectedFormula; readonly calls: readonly ExplainedCall[] };

/** Follows the selection and explains the result in the selected cell. */
export class CellScreen implements Screen {
  readonly title = "This cell";
  #found: Found | undefined;
  #asked = 0;
  readonly #temperatures: LoggedTemperatures;

  constructor(private readonly pane: Pane) {
    this.#temperatures = new LoggedTemperatures(pane);
    pane.host.selected.on(() => {
      if (pane.screens.top === this) void this.#look();
    });
  }

  readonly shown = (): void => void this.#look();

  view(): TemplateResult {
    const found = this.#found;
    switch (found?.is) {
      case undefined:
        return html`<p class="hint">Looking at the selected cell …</p>`;
      case "trouble":
        return html`<p class="error" role="alert">${found.why}</p>`;
      case "nothing":
        return html`<p class="empty">
          Select a cell with a formula of Gylesheet's to see how its number comes about: step by step, with
          what each step rests on.
        </p>`;
      case "formula":
        return this.#formulaView(found.formula, found.calls);
    }
  }

  async #look(): Promise<void> {
    const ticket = (this.#asked += 1);
    const { host, instruments } = this.pane;
    let found: Found;
    try {
      const formula = await host.selection.formula();
      found = formula
        ? { is: "formula", formula, calls: explainedCalls(formula, host.functions, instruments.set) }
        : { is: "nothing" };
    } catch (error) {
      found = { is: "trouble", why: sentenceOf(error) };
    }
    // Another cell may have been selected in the meantime.
    if (ticket !== this.#asked) return;
    this.#found = found;
    this.pane.changed.emit();
  }

  #formulaView(formula: SelectedFormula, calls: readonly ExplainedCall[]): TemplateResult {
    const own = formula.row === 0 && formula.column === 0;
    return html`<p>
        <strong>${formula.address}</strong>${own ? "" : ", filled by the formula of another cell"}<br /><code
          class="formula"
          >${formula.formula}</code
        >
      </p>
      ${calls.map((call) => this.#callView(call))}`;
  }

  #callView({ name, explanation, course, cells }: ExplainedCall): TemplateResult {
    const info = this.pane.host.functions.list.find((candidate) => candidate.name === name);
    return html`<section aria-label=${name} class="call">
      <h2>${name}</h2>
      <p>${info?.summary}</p>
      ${
        cells > 1
          ? html`<p class="hint">It gives ${cells} cells here; the first of them is explained.</p>`
          : nothing
      }
      ${course ? fermentationChart(course, this.#temperatures.of(course)) : nothing}
      ${course ? this.#temperatures.view(course) : nothing}
      ${explanation ? this.#explanation(explanation, info) : html`<p class="hint">${unread}</p>`}
      ${info?.caution === undefined ? nothing : html`<p class="hint">${info.caution}</p>`}
      <p>
        <a href="${this.pane.host.help}${name.toLowerCase()}.html" target="_blank" rel="noopener"
          >Help page<span class="unseen"> of ${name}</span></a
        >
      </p>
    </section>`;
  }

  #explanation(
    { given, steps, warnings, result, uncertainty }: Explanation,
    info: FunctionInfo | undefined,
  ): TemplateResult {
    return html`${warnings.map((warning) => html`<p class="notice warning">${warning}</p>`)}
      <ul class="given" aria-label="Given">
        ${given.map(
          ({ name, value }) =>
            html`<li>${name.replaceAll("_", " ")}: ${this.#givenValue(name, value, info)}</li>`,
        )}
      </ul>
      ${
        steps.length === 0
          ? nothing
          : html`<ol class="steps" aria-label="Steps">
              ${steps.map(
                ({ what, value, unit, source }) =>
                  html`<li>
                    <span class="what">${what}</span> <strong>${quantity(value, unit)}</strong>
                    ${source === undefined ? nothing : html`<br /><small>${source}</small>`}
                  </li>`,
              )}
            </ol>`
      }
      ${
        typeof result === "object"
          ? html`<p class="error"><span class="cell-error">${result.code}</span> ${result.message}</p>`
          : steps.length > 0 && typeof result === "number"
            ? nothing
            : html`<p>Result: <strong>${cellText(result)}</strong></p>`
      }
      ${uncertainty ? uncertaintyView(uncertainty, steps.at(-1)?.unit ?? "") : nothing}`;
  }

  /** Instruments link to their profiles. */
  #givenValue(
    name: string,
    value: number | string | boolean,
    info: FunctionInfo | undefined,
  ): TemplateResult | string {
    const isInstrument = info?.parameters.find((parameter) => parameter.name === name)?.namesInstrument;
    const profile = isInstrument ? findInstrument(this.pane.instruments.set, String(value)) : undefined;
    if (!profile) return typeof value === "string" ? value : cellText(value);
    return html`<button
      class="quiet"
      @click=${() => {
        this.pane.screens.open(new InstrumentScreen(this.pane, profile.name), "Instruments");
      }}
    >
      ${profile.name}
    </button>`;
  }
}

function uncertaintyView({ by, plusMinus }: Uncertainty, unit: string): TemplateResult {
  if (plusMinus === undefined)
    return html`<p class="hint">How sure it is follows from how sure the gravities are: see ${by}.</p>`;
  if (typeof plusMinus === "number")
    return html`<p>
      <strong>± ${quantity(plusMinus, unit)}</strong> at two standard uncertainties (k = 2), by ${by}
    </p>`;
  return html`<p class="hint">
    How sure it is cannot be said. ${typeof plusMinus === "object" ? plusMinus.message : ""}
  </p>`;
}

const unread =
  "One of its arguments is worked out inside the formula, so its steps cannot be told. Put that part into a cell of its own to see them.";
