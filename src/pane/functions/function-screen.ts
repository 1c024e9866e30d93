import { html, nothing, type TemplateResult } from "lit";
import { kindOf } from "../../instruments/describe.js";
import { sentenceOf } from "../parts/failure.js";
import { choiceField, textField } from "../parts/fields.js";
import type { Pane } from "../pane.js";
import type { FunctionInfo } from "../ports/functions-port.js";
import type { Occupied } from "../ports/selection-port.js";
import type { Screen } from "../parts/screen.js";
import { preview, previewView, type Preview } from "./function-preview.js";
import { formulaOf, readField, type ParameterInfo, type Written } from "./written-argument.js";

/** One function: its description, and a form that inserts it into a cell. */
export class FunctionScreen implements Screen {
  readonly title: string;
  readonly #texts: string[];
  /** Whether an argument for words or names takes its value from cells. */
  readonly #fromCells: boolean[];
  #preview: Preview | undefined;
  #asked = 0;
  #said: string | undefined;

  /** @param instrument name preset in the form */
  constructor(
    private readonly pane: Pane,
    private readonly info: FunctionInfo,
    instrument = "",
  ) {
    this.title = info.name;
    this.#texts = info.parameters.map(() => "");
    this.#fromCells = info.parameters.map(() => false);
    const at = info.parameters.findIndex(({ namesInstrument }) => namesInstrument);
    if (at >= 0) this.#texts[at] = instrument;
  }

  view(): TemplateResult {
    const { question, summary, parameters, returns, caution, examples, method, name } = this.info;
    const { help } = this.pane.host;
    return html`<p>${summary}</p>
      ${caution === undefined ? nothing : html`<p class="caution"><strong>Caution.</strong> ${caution}</p>`}
      <form
        novalidate
        aria-label=${question}
        @submit=${(event: Event) => {
          event.preventDefault();
          void this.#insert();
        }}
      >
        ${parameters.map((parameter, i) => this.#argument(parameter, i))}
        <h2>Result</h2>
        <div role="status">${this.#resultView()}</div>
        <p><code class="formula">${formulaOf(name, this.#written())}</code></p>
        <div class="row"><button class="primary" type="submit">Insert into the selected cell</button></div>
        ${this.#said === undefined ? nothing : html`<p role="status">${this.#said}</p>`}
      </form>
      <h2>Gives</h2>
      <p>${returns}</p>
      <h2>Examples</h2>
      ${examples.map(({ formula, says }) => html`<p><code class="formula">=${formula}</code><br />${says}</p>`)}
      <details>
        <summary>How it is calculated</summary>
        <p>${method}</p>
      </details>
      <p><a href="${help}${name.toLowerCase()}.html" target="_blank" rel="noopener">Help page</a></p>`;
  }

  #argument(parameter: ParameterInfo, i: number): TemplateResult {
    const words = {
      id: `argument-${i}`,
      label: parameter.name.replaceAll("_", " "),
      hint: parameter.description,
      optional: parameter.optional,
      error: this.#preview?.is === "problem" && this.#preview.argument === i ? this.#preview.text : undefined,
      value: this.#texts[i] ?? "",
    };
    const takesWords = parameter.namesInstrument || parameter.choices.length > 0;
    return html`<div class="argument">
      ${
        takesWords && !this.#fromCells[i]
          ? choiceField({
              ...words,
              choices: this.#options(parameter, words.value),
              onChoose: (value) => {
                this.#set(i, value);
              },
            })
          : textField({
              ...words,
              onInput: (value) => {
                this.#set(i, value);
              },
            })
      }
      <div class="row tight">
        <button type="button" class="quiet" @click=${() => void this.#takeSelection(i)}>
          Use selected cells<span class="unseen"> for ${words.label}</span>
        </button>
        ${
          takesWords && this.#fromCells[i]
            ? html`<button
                type="button"
                class="quiet"
                @click=${() => {
                  this.#fromCells[i] = false;
                  this.#set(i, "");
                }}
              >
                Choose from a list
              </button>`
            : nothing
        }
      </div>
    </div>`;
  }

  #options(parameter: ParameterInfo, value: string): { value: string; label: string }[] {
    const { choices, namesInstrument, instrumentKind } = parameter;
    const options = namesInstrument
      ? this.pane.instruments.set.instruments
          .filter(({ kind }) => instrumentKind === undefined || kind === instrumentKind)
          .map((profile) => ({ value: profile.name, label: `${profile.name} (${kindOf(profile)})` }))
      : choices.map((choice) => ({ value: choice, label: choice }));
    const known = value === "" || options.some((option) => option.value === value);
    return [{ value: "", label: "–" }, ...options, ...(known ? [] : [{ value, label: value }])];
  }

  #resultView(): TemplateResult | typeof nothing {
    const missing = this.info.parameters.filter(
      ({ optional }, i) => !optional && (this.#texts[i] ?? "").trim() === "",
    );
    if (missing.length > 0)
      return html`<p class="hint">
        Fill in ${missing.map((parameter) => parameter.name.replaceAll("_", " ")).join(", ")}.
      </p>`;
    return this.#preview?.is === "result" ? previewView(this.#preview.rows) : nothing;
  }

  #written(): Written[] {
    return this.info.parameters.map((parameter, i) =>
      readField(this.#texts[i] ?? "", parameter, this.#fromCells[i] ?? false),
    );
  }

  #set(i: number, value: string): void {
    this.#texts[i] = value;
    this.#said = undefined;
    this.pane.changed.emit();
    void this.#calculate();
  }

  async #calculate(): Promise<void> {
    const ticket = (this.#asked += 1);
    const result = await preview(this.pane.host, this.info.name, this.#written(), this.pane.instruments.set);
    // Later input has its own answer on the way.
    if (ticket !== this.#asked) return;
    this.#preview = result;
    this.pane.changed.emit();
  }

  async #takeSelection(i: number): Promise<void> {
    try {
      const { reference } = await this.pane.host.selection.read();
      this.#fromCells[i] = true;
      this.#set(i, reference);
    } catch (error) {
      this.pane.notices.say("trouble", { tone: "error", text: sentenceOf(error) });
    }
  }

  async #insert(over?: Occupied): Promise<void> {
    const { pane, info } = this;
    const args = this.#written();
    const missing = info.parameters.findIndex(({ optional }, i) => !optional && args[i]?.is === "empty");
    this.#preview =
      missing >= 0
        ? { is: "problem", argument: missing, text: "This is needed." }
        : await preview(pane.host, info.name, args, pane.instruments.set);
    pane.changed.emit();
    if (this.#preview.is === "problem") {
      document.querySelector<HTMLElement>(`#argument-${this.#preview.argument}`)?.focus();
      return;
    }
    const formula = formulaOf(info.name, args);
    const done = await pane.attempts.work("Inserting", () => pane.host.selection.insert(formula, over));
    if (!done) return;
    if ("inserted" in done) {
      this.#said = `It is in ${done.inserted}.`;
      pane.changed.emit();
      await pane.recalculator.find();
      return;
    }
    const answer = await pane.questions.ask({
      title: `Overwrite ${done.at}?`,
      text: `The cell holds ${done.occupied.slice(0, 100)}.`,
      answers: [{ answer: "over", label: "Overwrite", tone: "danger" }],
    });
    if (answer === "over") await this.#insert(done);
  }
}
