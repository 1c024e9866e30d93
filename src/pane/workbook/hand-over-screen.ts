import { html, nothing, type TemplateResult } from "lit";
import { cellList } from "./cell-list.js";
import type { Pane } from "../pane.js";
import type { Way } from "../../handover/way.js";
import type { HandedOverFile } from "../ports/workbook-port.js";
import type { Screen } from "../parts/screen.js";
import { formulaCount } from "../parts/usage.js";

const ways: readonly { readonly way: Way; readonly title: string; readonly says: string }[] = [
  {
    way: "values",
    title: "As values",
    says: "For someone who reads the numbers. Gylesheet's formulas become their values; a note on each cell has its formula and its instrument.",
  },
  {
    way: "live",
    title: "Live without the add-in",
    says: "For someone who goes on with the workbook in any spreadsheet program. Gylesheet's formulas become ordinary ones that follow their cells; the notes say how exactly. What cannot be done so is a value.",
  },
  {
    way: "share",
    title: "As it is",
    says: "For someone who has Gylesheet, or is to get it: a sheet more says how. Until then their spreadsheet program may show #NAME?.",
  },
];

/** Makes a copy of the workbook for someone else. */
export class HandOverScreen implements Screen {
  readonly title = "Hand over";
  #done: { readonly way: Way; readonly copy: HandedOverFile } | undefined;

  constructor(private readonly pane: Pane) {}

  view(): TemplateResult {
    return html`<p>Makes a copy for someone else. This workbook stays as it is.</p>
      <ul class="cards">
        ${ways.map(
          ({ way, title, says }) =>
            html`<li>
              <button class="card" @click=${() => void this.#make(way)}>
                <span class="card-title">${title}</span>
                <span class="card-text">${says}</span>
              </button>
            </li>`,
        )}
      </ul>
      ${this.#done ? this.#doneView(this.#done.way, this.#done.copy) : nothing}
      <p class="hint">
        A copy says what was measured, not what may be sold or driven on: labels, duty and pressure are for
        the law, a licensed laboratory and the maker of the bottle to say.
      </p>`;
  }

  #doneView(way: Way, { where, formulas, live, notLive, errors }: HandedOverFile): TemplateResult {
    return html`<h2 id="handed-over" tabindex="-1">The copy is made</h2>
      <div role="status">
        <p>${where}</p>
        <p>${saysOf(way, formulas, live)}</p>
      </div>
      ${cellList(this.pane, "Values, not live", notLive)}
      ${cellList(this.pane, "Show an error, in the copy too", errors)}`;
  }

  async #make(way: Way): Promise<void> {
    const { pane } = this;
    const copy = await pane.attempts.work("Making the copy", (work) => pane.host.handOver(way, work));
    this.#done = copy && { way, copy };
    pane.changed.emit();
    if (!copy) return;
    await Promise.resolve();
    document.getElementById("handed-over")?.focus();
  }
}

function saysOf(way: Way, formulas: number, live: number): string {
  if (formulas === 0) return "There is no formula of Gylesheet's in it.";
  const all = formulaCount(formulas);
  if (way === "share") return `${all} of Gylesheet's went along, with a sheet on getting the add-in.`;
  if (way === "values") return `${all} became values, with a sheet on the instruments and the cautions.`;
  return `${live} of ${all} go on calculating, with a sheet on the instruments and the cautions.`;
}
