import { html, type TemplateResult } from "lit";
import { CheckScreen } from "./check-screen.js";
import { HandOverScreen } from "./hand-over-screen.js";
import type { Pane } from "../pane.js";
import { RecalculateScreen } from "./recalculate-screen.js";
import type { Screen } from "../parts/screen.js";

interface Work {
  readonly title: string;
  readonly says: string;
  readonly open: (pane: Pane) => Screen;
}

const works: readonly Work[] = [
  {
    title: "Check the workbook",
    says: "Errors, instruments that are missing, readings off the scale, °F among °C, formulas that show #NAME?.",
    open: (pane) => new CheckScreen(pane),
  },
  {
    title: "Calculate everything again",
    says: "After an instrument turned out to be off, or where cells may be out of date. You see what changed, and by how much.",
    open: (pane) => new RecalculateScreen(pane),
  },
  {
    title: "Hand over",
    says: "A copy for a partner: as it is, as values, or live without the add-in.",
    open: (pane) => new HandOverScreen(pane),
  },
];

/** Actions on the whole workbook. */
export class WorkbookScreen implements Screen {
  readonly title = "This workbook";

  constructor(private readonly pane: Pane) {}

  view(): TemplateResult {
    return html`<ul class="cards">
      ${works.map(
        ({ title, says, open }) =>
          html`<li>
            <button
              class="card"
              @click=${() => {
                this.pane.screens.open(open(this.pane));
              }}
            >
              <span class="card-title">${title}</span>
              <span class="card-text">${says}</span>
            </button>
          </li>`,
      )}
    </ul>`;
  }
}
