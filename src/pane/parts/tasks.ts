import { html, nothing, type TemplateResult } from "lit";
import type { Work } from "../ports/formulas-port.js";
import type { Emitter } from "../source.js";

/** Shorter work does not show its progress. */
const SHOWN_AFTER_MS = 400;

interface Task {
  readonly label: string;
  readonly stop: AbortController;
  done: number;
  total: number;
  shown: boolean;
}

/** The user stopped the work. */
export class Stopped extends Error {
  override readonly name = "Stopped";
}

/** Long work in progress. */
export class Tasks {
  readonly #tasks = new Set<Task>();

  constructor(private readonly changed: Emitter) {}

  /**
   * Shows the progress of some work, with a button that stops it.
   *
   * @throws Stopped if the user stopped it; anything that the work throws
   */
  async run<T>(label: string, start: (work: Work) => Promise<T>): Promise<T> {
    const task: Task = { label, stop: new AbortController(), done: 0, total: 0, shown: false };
    const timer = setTimeout(() => {
      task.shown = true;
      this.changed.emit();
    }, SHOWN_AFTER_MS);
    this.#tasks.add(task);
    try {
      return await start({
        signal: task.stop.signal,
        onProgress: (done, total) => {
          Object.assign(task, { done, total });
          if (task.shown) this.changed.emit();
        },
      });
    } finally {
      clearTimeout(timer);
      this.#tasks.delete(task);
      this.changed.emit();
    }
  }

  /** All work in progress, shown or not. */
  get all(): readonly { readonly label: string; readonly stop: () => void }[] {
    return [...this.#tasks].map(({ label, stop }) => ({
      label,
      stop: () => {
        stop.abort(new Stopped("Stopped."));
      },
    }));
  }

  view(): TemplateResult | typeof nothing {
    const shown = [...this.#tasks].filter((task) => task.shown);
    if (shown.length === 0) return nothing;
    return html`<div class="tasks" role="status">
      ${shown.map(
        ({ label, done, total, stop }) =>
          html`<div class="task">
            <span>${label}</span>
            ${
              total > 0
                ? html`<progress aria-label=${label} max=${total} value=${done}></progress>
                    <span class="count">${done} of ${total}</span>`
                : html`<progress aria-label=${label}></progress>`
            }
            <button
              class="quiet"
              @click=${() => {
                stop.abort(new Stopped("Stopped."));
              }}
            >
              Stop
            </button>
          </div>`,
      )}
    </div>`;
  }
}
