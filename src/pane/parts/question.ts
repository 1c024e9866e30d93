import { html, nothing, type TemplateResult } from "lit";
import { ref } from "lit/directives/ref.js";
import type { Emitter } from "../source.js";

/** A question that must be answered before the pane continues. */
export interface Question<T extends string> {
  readonly title: string;
  readonly text: string;
  readonly answers: readonly {
    readonly answer: T;
    readonly label: string;
    readonly tone?: "primary" | "danger";
  }[];
}

interface Asked {
  readonly question: Question<string>;
  readonly settle: (answer: string | undefined) => void;
}

/** The open question, if any. */
export class Questions {
  #asked: Asked | undefined;

  constructor(private readonly changed: Emitter) {}

  /** @returns undefined if the user dismissed it, which changes nothing */
  ask<T extends string>(question: Question<T>): Promise<T | undefined> {
    this.#asked?.settle(undefined);
    return new Promise((resolve) => {
      this.#asked = {
        question,
        settle: (answer) => {
          this.#asked = undefined;
          this.changed.emit();
          resolve(answer as T | undefined);
        },
      };
      this.changed.emit();
    });
  }

  view(): TemplateResult | typeof nothing {
    if (!this.#asked) return nothing;
    const { question, settle } = this.#asked;
    const open = (dialog: Element | undefined): void => {
      // It can be shown only once it is on the page, which is after this call.
      queueMicrotask(() => {
        if (dialog instanceof HTMLDialogElement && dialog.isConnected && !dialog.open) dialog.showModal();
      });
    };
    return html`<dialog
      ${ref(open)}
      aria-labelledby="question"
      @cancel=${() => {
        settle(undefined);
      }}
    >
      <h2 id="question">${question.title}</h2>
      <p>${question.text}</p>
      <div class="row">
        ${question.answers.map(
          ({ answer, label, tone }) =>
            html`<button
              class=${tone ?? ""}
              @click=${() => {
                settle(answer);
              }}
            >
              ${label}
            </button>`,
        )}
        <button
          ?autofocus=${question.answers.some(({ tone }) => tone === "danger")}
          @click=${() => {
            settle(undefined);
          }}
        >
          Cancel
        </button>
      </div>
    </dialog>`;
  }
}
