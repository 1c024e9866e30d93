import { html, nothing, type TemplateResult } from "lit";
import { noticeView } from "./parts/notices.js";
import type { Pane } from "./pane.js";
import { sections } from "./parts/screen.js";

/** Heading of the screen that is shown; it takes the focus when the user comes to another one. */
export const HEADING = "screen-title";

/** Everything around a screen: sections, the way back, what is under way, what is told, what is asked. */
export function frame(pane: Pane): TemplateResult {
  const { screen, below } = pane;
  return html`<nav aria-label="Gylesheet">
      ${sections.map(
        (section) =>
          html`<button
            aria-current=${section === pane.section ? "page" : nothing}
            @click=${() => {
              pane.show(section);
            }}
          >
            ${section}
          </button>`,
      )}
    </nav>
    <main>
      ${
        below
          ? html`<button class="back quiet" @click=${() => void pane.back()}>
              <span aria-hidden="true">‹</span> Back to ${below.title}
            </button>`
          : nothing
      }
      <h1 id=${HEADING} tabindex="-1" dir="auto">${screen.title}</h1>
      ${screen.view()}
    </main>
    <div class="foot">
      ${pane.tasks.view()} ${pane.others.view()}
      ${[...pane.notices].map(([key, notice]) =>
        noticeView(notice, () => {
          pane.dismiss(key);
        }),
      )}
    </div>
    ${pane.questions.view()}`;
}
