import { html, nothing, type TemplateResult } from "lit";
import { factsOf, kindOf } from "../../instruments/describe.js";
import type { News } from "../../instruments/keeper.js";
import type { Profile } from "../../instruments/schema.js";
import { formatSet } from "../../instruments/set.js";
import type { Pane } from "../pane.js";
import type { Screen } from "../parts/screen.js";
import { formulaCount, usersOf } from "../parts/usage.js";
import { ImportScreen } from "./import-screen.js";
import { InstrumentScreen } from "./instrument-screen.js";
import { PresetChoice, presetList } from "./preset-choice.js";
import { unreadableView, keptView } from "./unreadable.js";

/** The instruments of the workbook, or what to do if there are none. */
export class InstrumentList implements Screen {
  #skipped = false;

  constructor(private readonly pane: Pane) {}

  get title(): string {
    return this.#isFirstUse() ? "What do you measure with?" : "Instruments";
  }

  view(): TemplateResult {
    const { state } = this.pane.instruments;
    switch (state.is) {
      case "loading":
        return html`<p class="empty" role="status">Reading the instruments of this workbook …</p>`;
      case "failed":
        return html`<p class="error" role="alert">${state.why}</p>
          <button class="primary" @click=${() => void this.pane.instruments.look()}>Try again</button>`;
      case "unreadable":
        return unreadableView(this.pane, state.news);
      case "ready":
        return this.#isFirstUse() ? this.#firstUse() : this.#list(state.news);
    }
  }

  #isFirstUse(): boolean {
    const { state } = this.pane.instruments;
    return state.is === "ready" && state.set.instruments.length === 0 && !this.#skipped;
  }

  #firstUse(): TemplateResult {
    return html`<p>
        Every instrument lies a little in its own way. Write down once what yours needs corrected; it stays in
        this workbook, and formulas name it.
      </p>
      ${presetList(this.pane)}
      <div class="row">
        <button
          @click=${() => {
            this.#skipped = true;
            this.pane.screens.show("Instruments");
          }}
        >
          Skip for now
        </button>
        ${this.#importButton()}
      </div>`;
  }

  #list(news: News): TemplateResult {
    const { instruments } = this.pane.instruments.set;
    return html`${news.refused.length > 0 ? keptView(this.pane, news) : nothing}
      <div class="row">
        <button
          class="primary"
          @click=${() => {
            this.pane.screens.open(new PresetChoice(this.pane));
          }}
        >
          Add an instrument
        </button>
        ${this.#importButton()}
        ${
          instruments.length > 0
            ? html`<button
                @click=${() => {
                  this.#export();
                }}
              >
                Export
              </button>`
            : nothing
        }
      </div>
      ${
        instruments.length === 0
          ? html`<p class="empty">
              This workbook has no instruments yet. Functions work without: they take a 20 °C hydrometer read
              at the level surface, and a refractometer that compensates temperature.
            </p>`
          : html`<ul class="cards">
              ${instruments.map((profile) => html`<li>${this.#card(profile)}</li>`)}
            </ul>`
      }`;
  }

  #card(profile: Profile): TemplateResult {
    return html`<button
      class="card"
      @click=${() => {
        this.pane.screens.open(new InstrumentScreen(this.pane, profile.name));
      }}
    >
      <span class="card-title" dir="auto">${profile.name}</span>
      <span class="card-text">${[kindOf(profile), ...factsOf(profile).slice(0, 3)].join(" · ")}</span>
      <span class="card-text">${this.#uses(profile)}</span>
    </button>`;
  }

  #uses({ name }: Profile): string {
    const { formulas } = this.pane.recalculator;
    if (!formulas) return "Counting formulas …";
    const n = usersOf(formulas, name).length;
    return n === 0 ? "Not named in any formula" : `Named in ${formulaCount(n)}`;
  }

  #importButton(): TemplateResult {
    return html`<button
      @click=${() => {
        this.pane.screens.open(new ImportScreen(this.pane));
      }}
    >
      Import
    </button>`;
  }

  #export(): void {
    this.pane.saveFile("instruments.json", formatSet(this.pane.instruments.set), "application/json");
  }
}
