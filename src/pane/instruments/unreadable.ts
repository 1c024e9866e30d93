import { html, nothing, type TemplateResult } from "lit";
import type { News } from "../../instruments/keeper.js";
import type { Pane } from "../pane.js";

const problems = ({ refused }: News): readonly string[] => refused.flatMap((part) => part.problems);

function saveCopies(pane: Pane, { refused }: News): TemplateResult {
  return html`${refused.map(
    ({ xml }, i) =>
      html`<button
        @click=${() => {
          pane.saveFile(`unread-instruments${i > 0 ? `-${i + 1}` : ""}.xml`, xml, "application/xml");
        }}
      >
        Save a copy${refused.length > 1 ? ` of part ${i + 1}` : nothing}
      </button>`,
  )}`;
}

/** Shown if the workbook has stored instruments but none of them can be read. */
export function unreadableView(pane: Pane, news: News): TemplateResult {
  const newer = news.refused.some(({ because }) => because === "newer");
  return html`<div class="notice warning" role="alert">
      <p>
        ${
          newer
            ? "The instruments of this workbook were written by a later Gylesheet. They are untouched; update Gylesheet to use them."
            : "This workbook has instruments that cannot be read. They are untouched."
        }
      </p>
      <ul>
        ${problems(news).map((problem) => html`<li>${problem}</li>`)}
      </ul>
    </div>
    <p>Formulas that name an instrument show #N/A until there are instruments that can be read.</p>
    <div class="row">
      ${saveCopies(pane, news)}
      <button @click=${() => void pane.instruments.startBeside()}>Start new ones beside them</button>
    </div>`;
}

/** Shown if some of the stored instruments cannot be read. */
export function keptView(pane: Pane, news: News): TemplateResult {
  return html`<div class="notice warning">
    <p>This workbook also has instruments that cannot be read. They are kept as they are.</p>
    <details>
      <summary>What is wrong with them</summary>
      <ul>
        ${problems(news).map((problem) => html`<li>${problem}</li>`)}
      </ul>
    </details>
    <div class="row">${saveCopies(pane, news)}</div>
  </div>`;
}
