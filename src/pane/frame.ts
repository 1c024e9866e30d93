import { html, nothing, type TemplateResult } from "lit";
import type { Pane } from "./pane.js";
import { sections } from "./parts/screen.js";

/** Heading of the screen that is shown; it takes the focus when the user comes to another one. */
export const HEADING = "screen-title";

/** Everything around a screen: sections, the way back, what is under way, what is told, what is asked. */
export function frame(pane: Pane): TemplateResult {
  const { screens, instruments, notices, questions, tasks } = pane;
  const { top, below } = screens;
  return html`<nav aria-label="Gylesheet">
      ${sections.map(
        (section) =>
          html`<button
            aria-current=${section === screens.section ? "page" : nothing}
            @click=${() => {
              screens.show(section);
            }}
          >
            ${section}
          </button>`,
      )}
    </nav>
    <main>
      ${
        below
          ? html`<button class="back quiet" @click=${() => void screens.back()}>
              <span aria-hidden="true">‹</span> Back to ${below.title}
            </button>`
          : nothing
      }
      <h1 id=${HEADING} tabindex="-1" dir="auto">${top.title}</h1>
      ${top.view()}
    </main>
    <div class="foot">${tasks.view()} ${instruments.others.view()} ${notices.view()}</div>
    ${questions.view()}`;
}
