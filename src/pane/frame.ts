import { html, nothing, type TemplateResult } from "lit";
import type { Pane } from "./pane.js";
import { sections } from "./parts/screen.js";

/** Id of the heading of the current screen; it gets the focus when the user moves to another screen. */
export const HEADING = "screen-title";

/** Everything around a screen: sections, back button, running tasks, notices, questions. */
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
    <div class="foot">${tasks.view()} ${instruments.conflicts.view()} ${notices.view()}</div>
    ${questions.view()}`;
}
