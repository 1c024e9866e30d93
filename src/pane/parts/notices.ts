import { html, nothing, type TemplateResult } from "lit";

/** What a notice is about; a later one on the same takes its place. */
export type About = "edit" | "cells" | "missing" | "unwritten" | "trouble";

/** Something to be told, which stays until it is dismissed or overtaken. */
export interface Notice {
  readonly tone: "info" | "success" | "warning" | "error";
  readonly text: string;
  readonly details?: readonly string[];
  /** What opens the details; if missing, "Show it". */
  readonly opens?: string;
  readonly actions?: readonly { readonly label: string; readonly run: () => void }[];
}

/** Where a notice stands. Troubles stand side by side, each once; of anything else only the latest. */
export const noticeKey = (about: About, { text }: Notice): string =>
  about === "trouble" ? `${about} ${text}` : about;

/** A list longer than this is cut, with a line that says so. */
const MOST_DETAILS = 20;

function details(lines: readonly string[], opens: string | undefined): TemplateResult {
  const more = lines.length - MOST_DETAILS;
  return html`<details>
    <summary>${opens ?? (lines.length === 1 ? "Show it" : `Show ${lines.length}`)}</summary>
    <ul>
      ${lines.slice(0, MOST_DETAILS).map((line) => html`<li>${line}</li>`)}
      ${more > 0 ? html`<li>… and ${more} more</li>` : nothing}
    </ul>
  </details>`;
}

export function noticeView(notice: Notice, dismiss: () => void): TemplateResult {
  const { tone, text, details: lines = [], opens, actions = [] } = notice;
  return html`<div class="notice ${tone}" role=${tone === "error" ? "alert" : "status"}>
    <p>${text}</p>
    ${lines.length > 0 ? details(lines, opens) : nothing}
    <div class="row">
      ${actions.map(
        ({ label, run }) =>
          html`<button
            class="quiet"
            @click=${() => {
              dismiss();
              run();
            }}
          >
            ${label}
          </button>`,
      )}
      <button class="quiet" @click=${dismiss}>Dismiss</button>
    </div>
  </div>`;
}
