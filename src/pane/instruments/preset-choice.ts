import { html, type TemplateResult } from "lit";
import { freeName } from "../../instruments/edits.js";
import type { Pane } from "../pane.js";
import type { Screen } from "../parts/screen.js";
import { InstrumentEditor } from "./instrument-editor.js";
import { InstrumentScreen } from "./instrument-screen.js";
import { presets, type Preset } from "./presets.js";

/** A list of measuring instruments; choosing one opens its form, filled in. */
export function presetList(pane: Pane): TemplateResult {
  return html`<ul class="cards">
    ${presets.map(
      (preset) =>
        html`<li>
          <button
            class="card"
            @click=${() => {
              begin(pane, preset);
            }}
          >
            <span class="card-title">${preset.label}</span>
            <span class="card-text">${preset.says}</span>
          </button>
        </li>`,
    )}
  </ul>`;
}

function begin(pane: Pane, { profiles }: Preset): void {
  const [first, ...more] = profiles.map((profile) => ({
    ...profile,
    name: freeName(pane.instruments.set, profile.name),
  }));
  const then = (name: string): Screen => new InstrumentScreen(pane, name);
  if (first) pane.screens.open(new InstrumentEditor(pane, { profile: first, more, then }));
}

/** Adds an instrument. */
export class PresetChoice implements Screen {
  readonly title = "Add an instrument";

  constructor(private readonly pane: Pane) {}

  view(): TemplateResult {
    return html`<p>What is it? All of it can be changed on the next page.</p>
      ${presetList(this.pane)}`;
  }
}
