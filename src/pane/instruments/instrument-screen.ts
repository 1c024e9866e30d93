import { html, nothing, type TemplateResult } from "lit";
import { factsOf, kindOf } from "../../instruments/describe.js";
import { freeName } from "../../instruments/edits.js";
import { findInstrument } from "../../instruments/find.js";
import type { Profile } from "../../instruments/schema.js";
import { CalibrationScreen } from "../calibration/calibration-screen.js";
import { deleteInstrument } from "./delete-instrument.js";
import { FunctionScreen } from "../functions/function-screen.js";
import type { Pane } from "../pane.js";
import type { OurFormula } from "../ports/formulas-port.js";
import type { Screen } from "../parts/screen.js";
import { formulaCount, usersOf } from "../parts/usage.js";
import { InstrumentEditor } from "./instrument-editor.js";
import { RenameScreen } from "./rename-screen.js";

/** A longer list helps nobody; the sheet itself shows the rest. */
const MOST_FORMULAS = 50;

/** One instrument: its facts, where it is used, and what can be done with it. */
export class InstrumentScreen implements Screen {
  constructor(
    private readonly pane: Pane,
    private name: string,
  ) {}

  get title(): string {
    return this.name;
  }

  view(): TemplateResult {
    const profile = findInstrument(this.pane.instruments.set, this.name);
    if (!profile) return html`<p class="empty">This instrument is not in the workbook any more.</p>`;
    const { formulas } = this.pane.recalculator;
    return html`<ul class="facts">
        <li>${kindOf(profile)}</li>
        ${factsOf(profile).map((fact) => html`<li>${fact}</li>`)}
      </ul>
      <div class="row">
        <button
          class="primary"
          @click=${() => {
            this.pane.screens.open(new InstrumentEditor(this.pane, { profile, editing: profile.name }));
          }}
        >
          Edit
        </button>
        <button
          @click=${() => {
            this.pane.screens.open(new CalibrationScreen(this.pane, profile.name, profile));
          }}
        >
          Calibrate
        </button>
        <button
          @click=${() => {
            this.#rename(profile);
          }}
        >
          Rename
        </button>
        <button
          @click=${() => {
            this.#duplicate(profile);
          }}
        >
          Duplicate
        </button>
        <button class="danger" @click=${() => void this.#delete(profile)}>Delete</button>
      </div>
      <h2>In a formula</h2>
      <ul class="cards">
        ${this.#functions(profile)}
      </ul>
      <h2>Where it is used</h2>
      ${formulas ? this.#uses(usersOf(formulas, profile.name)) : html`<p>Looking for formulas …</p>`}`;
  }

  #functions(profile: Profile): TemplateResult[] {
    const fitting = this.pane.host.functions.list.filter(({ parameters }) =>
      parameters.some(({ instrumentKind }) => instrumentKind === profile.kind),
    );
    return fitting.map(
      (info) =>
        html`<li>
          <button
            class="card"
            @click=${() => {
              this.pane.screens.open(new FunctionScreen(this.pane, info, profile.name));
            }}
          >
            <span class="card-title">${info.name}</span>
            <span class="card-text">${info.question}</span>
          </button>
        </li>`,
    );
  }

  #uses(users: readonly OurFormula[]): TemplateResult {
    if (users.length === 0) return html`<p>No formula names it yet.</p>`;
    return html`<p>Named in ${formulaCount(users.length)}.</p>
      <ul class="cells">
        ${users.slice(0, MOST_FORMULAS).map(
          (formula) =>
            html`<li>
              <button class="quiet" @click=${() => void this.pane.showCell(formula)}>
                ${formula.sheet} ${formula.address}
              </button>
            </li>`,
        )}
      </ul>
      ${users.length > MOST_FORMULAS ? html`<p>… and ${users.length - MOST_FORMULAS} more.</p>` : nothing}`;
  }

  #rename({ name }: Profile): void {
    const screen = new RenameScreen(this.pane, name);
    screen.renamed.on((to) => (this.name = to));
    this.pane.screens.open(screen);
  }

  #duplicate(profile: Profile): void {
    const copy: Profile = { ...profile, name: freeName(this.pane.instruments.set, profile.name) };
    const then = (name: string): Screen => new InstrumentScreen(this.pane, name);
    this.pane.screens.open(new InstrumentEditor(this.pane, { profile: copy, then }));
  }

  async #delete({ name }: Profile): Promise<void> {
    const { pane } = this;
    if (await pane.attempts.once(this, () => deleteInstrument(pane, name))) pane.screens.close(this);
  }
}
