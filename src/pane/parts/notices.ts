import { html, nothing, type TemplateResult } from "lit";
import type { Emitter } from "../source.js";

/** Topic of a notice; a later one on the same topic replaces it. */
export type About = "edit" | "cells" | "missing" | "unwritten" | "trouble";

/** A message that stays until it is dismissed or replaced. */
export interface Notice {
  readonly tone: "info" | "success" | "warning" | "error";
  readonly text: string;
  readonly details?: readonly string[];
  /** Label of the details; if missing, "Show it". */
  readonly opens?: string;
  readonly actions?: readonly { readonly label: string; readonly run: () => void }[];
}

/** Key of a notice. All distinct troubles are kept; for other topics only the latest. */
const keyOf = (about: string, { text }: Notice): string => (about === "trouble" ? `${about} ${text}` : about);

/** The current notices, by topic. */
export class Notices<T extends string = About> {
  readonly #all = new Map<string, Notice>();

  constructor(private readonly changed: Emitter) {}

  /** Troubles are found only by the view. */
  get(about: T): Notice | undefined {
    return this.#all.get(about);
  }

  say(about: T, notice: Notice): void {
    this.#all.set(keyOf(about, notice), notice);
    this.changed.emit();
  }

  dismiss(about: T): void {
    this.#remove(about);
  }

  clear(): void {
    this.#all.clear();
    this.changed.emit();
  }

  view(): TemplateResult[] {
    return [...this.#all].map(([key, notice]) =>
      noticeView(notice, () => {
        this.#remove(key);
      }),
    );
  }

  #remove(key: string): void {
    this.#all.delete(key);
    this.changed.emit();
  }
}

/** A longer list is cut, with a line that says so. */
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

function noticeView(notice: Notice, dismiss: () => void): TemplateResult {
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
