import { html, nothing, type TemplateResult } from "lit";
import { factsOf } from "../../instruments/describe.js";
import { EditRefused } from "../../instruments/edit-refused.js";
import { put } from "../../instruments/edits.js";
import { findInstrument } from "../../instruments/find.js";
import type { Profile } from "../../instruments/schema.js";
import type { InstrumentSet } from "../../instruments/set.js";
import type { CalibrationMethod } from "./calibration-method.js";
import { methodsOf, outcomeOf, type CalibrationOutcome } from "./calibration-outcome.js";
import type { Typed } from "./calibration-pairs.js";
import { calibrationResult } from "./calibration-result.js";
import { choiceField } from "../parts/fields.js";
import { PairList } from "./pair-list.js";
import type { Pane } from "../pane.js";
import type { Screen } from "../parts/screen.js";
import { SugarForm } from "./sugar-form.js";
import { workbookChange, type WorkbookChange } from "../workbook/workbook-change.js";
import { workbookChangeView } from "../workbook/workbook-change-view.js";

/** Preview of the changes in the workbook, valid as long as neither the pairs nor the instruments change. */
interface ChangePreview {
  readonly typed: Typed;
  readonly method: string;
  readonly set: InstrumentSet;
  /** Undefined if the preview was stopped or failed. */
  readonly change: WorkbookChange | undefined;
}

/** Takes pairs, shows the calibration, and previews its effect on the workbook before applying it. */
export class CalibrationScreen implements Screen {
  readonly title: string;
  readonly #pairs: PairList;
  readonly #sugar: SugarForm;
  #method = "";
  #preview: ChangePreview | undefined;

  constructor(
    private readonly pane: Pane,
    private readonly name: string,
    profile: Profile,
  ) {
    this.title = `Calibrate ${name}`;
    this.#pairs = new PairList(pane, profile);
    this.#sugar = new SugarForm(pane.changed, pane.host.functions.sentences.refusal, (extract) => {
      this.#pairs.add(extract);
    });
  }

  unsaved(): boolean {
    return !this.#pairs.isBlank;
  }

  view(): TemplateResult {
    const profile = findInstrument(this.pane.instruments.set, this.name);
    if (!profile) return html`<p class="empty">This instrument is not in the workbook any more.</p>`;
    const methods = methodsOf(profile);
    const method = this.#methodOf(methods);
    const outcome = this.#outcome(profile, method);
    const preview = this.#validPreview(method);
    return html`<p>Now: ${factsOf(profile).join(", ")}.</p>
      ${methods.length > 1 ? this.#methodField(methods, method) : nothing}
      <p>${method.says}</p>
      ${method.sugar ? this.#sugar.view() : nothing}
      <form
        novalidate
        @submit=${(event: Event) => {
          event.preventDefault();
          void this.#makePreview(event.target as HTMLFormElement);
        }}
      >
        <h2>Pairs</h2>
        ${this.#pairs.view(profile, method, outcome.is === "wrong" ? outcome.errors : new Map())}
        <h2>Result</h2>
        ${this.#resultView(outcome)}
        <div class="row">
          <button class=${preview ? "" : "primary"} type="submit">See what would change</button>
        </div>
      </form>
      ${preview ? this.#previewView(preview) : nothing}`;
  }

  #methodOf(methods: readonly CalibrationMethod[]): CalibrationMethod {
    const method = methods.find(({ key }) => key === this.#method) ?? methods[0];
    if (!method) throw new Error("An instrument of this kind cannot be calibrated.");
    return method;
  }

  #outcome(profile: Profile, method: CalibrationMethod): CalibrationOutcome {
    return outcomeOf(this.#pairs.typed, profile, method, this.pane.host.functions.sentences.refusal);
  }

  #methodField(methods: readonly CalibrationMethod[], { key: value }: CalibrationMethod): TemplateResult {
    return choiceField({
      id: "calibration-method",
      label: "What is to be found",
      value,
      choices: methods.map(({ key, label }) => ({ value: key, label })),
      onChoose: (key) => {
        this.#method = key;
        this.pane.changed.emit();
      },
    });
  }

  #resultView(outcome: CalibrationOutcome): TemplateResult {
    switch (outcome.is) {
      case "empty":
        return html`<p class="hint">It appears here as soon as a pair is complete.</p>`;
      case "wrong":
        return outcome.why === undefined
          ? html`<p class="hint">Something is missing or wrong in a pair.</p>`
          : html`<p class="error" role="alert">${outcome.why}</p>`;
      case "found":
        return calibrationResult(outcome.found, outcome.numbers);
    }
  }

  /** The preview, if it is still valid. */
  #validPreview({ key }: CalibrationMethod): ChangePreview | undefined {
    const preview = this.#preview;
    return preview?.typed === this.#pairs.typed &&
      preview.method === key &&
      preview.set === this.pane.instruments.set
      ? preview
      : undefined;
  }

  #previewView({ change }: ChangePreview): TemplateResult {
    return html`<h2 id="calibration-change" tabindex="-1">In the workbook</h2>
      ${
        change
          ? workbookChangeView(this.pane, change)
          : html`<p>
              Not all formulas were looked at. Those that use it follow all the same when you apply.
            </p>`
      }
      <p>Nothing is changed yet.</p>
      <div class="row">
        <button class="primary" @click=${() => void this.#apply()}>Apply to the workbook</button>
      </div>`;
  }

  /** Previews the changes, or moves the focus to what is wrong. */
  async #makePreview(form: HTMLFormElement): Promise<void> {
    const { pane } = this;
    const { set } = pane.instruments;
    const profile = findInstrument(set, this.name);
    if (!profile) return;
    const { typed } = this.#pairs;
    const method = this.#methodOf(methodsOf(profile));
    const outcome = this.#outcome(profile, method);
    if (outcome.is !== "found") {
      this.#pairs.leaveAll();
      await Promise.resolve();
      const first = outcome.is === "empty" ? "fieldset input" : "[aria-invalid=true]";
      form.querySelector<HTMLElement>(first)?.focus();
      return;
    }
    const after = put(set, outcome.found.profile, new Date().toISOString());
    const change = await pane.attempts.work("Looking at what would change", (work) =>
      workbookChange(pane.host, set, after, [this.name], work),
    );
    this.#preview = { typed, method: method.key, set, change };
    pane.changed.emit();
    await Promise.resolve();
    document.getElementById("calibration-change")?.focus();
  }

  async #apply(): Promise<void> {
    const { pane } = this;
    const before = findInstrument(pane.instruments.set, this.name);
    if (!before) return;
    const method = this.#methodOf(methodsOf(before));
    const outcome = this.#outcome(before, method);
    if (outcome.is !== "found" || !this.#validPreview(method)) return;
    const { profile } = outcome.found;
    const done = await pane.attempts.once(this, () =>
      pane.instruments.change((set, now) => {
        const there = findInstrument(set, before.name);
        if (JSON.stringify(there) !== JSON.stringify(before))
          throw new EditRefused(
            `Someone has just changed "${before.name}". Look at what would change once more.`,
          );
        return put(set, profile, now);
      }, `"${before.name}" is calibrated.`),
    );
    if (done) pane.screens.close(this);
  }
}
