import { html, nothing, type TemplateResult } from "lit";
import { describe } from "../../instruments/describe.js";
import type { Overruled } from "../../instruments/merge.js";
import type { Emitter } from "../source.js";

/** Local edits overruled by later ones of co-authors. Each is shown until the user takes it back or dismisses it. */
export class EditConflicts {
  #overruled: readonly Overruled[] = [];

  /** @param takeMine restores an edit; resolves to whether it did */
  constructor(
    private readonly changed: Emitter,
    private readonly takeMine: (mine: Overruled["profile"]) => Promise<boolean>,
  ) {}

  add(overruled: readonly Overruled[]): void {
    const known = new Set(this.#overruled.map(({ profile }) => JSON.stringify(profile)));
    const fresh = overruled.filter(({ profile }) => !known.has(JSON.stringify(profile)));
    this.#overruled = [...this.#overruled, ...fresh];
  }

  /** Those shown at the moment. */
  get all(): readonly Overruled[] {
    return this.#overruled;
  }

  view(): TemplateResult | typeof nothing {
    const { all } = this;
    if (all.length === 0) return nothing;
    return html`<div class="notice warning" role="status">
      ${all.length > 1 ? html`<p>Others changed ${all.length} instruments later than you.</p>` : nothing}
      ${all.map((each) => this.#one(each))}
      <div class="row">
        <button
          class="quiet"
          @click=${() => {
            this.#overruled = [];
            this.changed.emit();
          }}
        >
          ${all.length > 1 ? "Dismiss all" : "Dismiss"}
        </button>
      </div>
    </div>`;
  }

  #one(one: Overruled): TemplateResult {
    const { name, profile, by } = one;
    // If there are several, screen readers are told which one a button refers to.
    const which = this.all.length > 1 ? html`<span class="unseen"> of ${name}</span>` : nothing;
    return html`<div class="one">
      <p>
        ${
          by
            ? `Someone changed "${name}" later than you. Theirs stands now.`
            : `Someone deleted "${name}" later than you changed it.`
        }
      </p>
      <details>
        <summary>Show yours${which}</summary>
        <p>Yours was: ${describe(profile)}</p>
      </details>
      <div class="row">
        <button class="quiet" @click=${() => void this.#take(one)}>Take mine${which}</button>
      </div>
    </div>`;
  }

  /** It stays until it really has been restored. */
  async #take(one: Overruled): Promise<void> {
    if (!(await this.takeMine(one.profile))) return;
    this.#overruled = this.#overruled.filter((each) => each !== one);
    this.changed.emit();
  }
}
