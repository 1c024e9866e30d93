import { html, type TemplateResult } from "lit";
import { findInstrument } from "../../instruments/find.js";
import { nameKey } from "../../instruments/name.js";
import { LONGEST_NAME } from "../../instruments/schema.js";
import { textField } from "../parts/fields.js";
import type { Pane } from "../pane.js";
import { renameInstrument } from "./rename-instrument.js";
import type { Screen } from "../parts/screen.js";
import { Emitter } from "../source.js";

/** Renames an instrument, and optionally in the formulas that name it. */
export class RenameScreen implements Screen {
  readonly title: string;
  /** The instrument has a new name, or its old one again. */
  readonly renamed = new Emitter<string>();
  #to: string;
  #error: string | undefined;

  constructor(
    private readonly pane: Pane,
    private readonly from: string,
  ) {
    this.title = `Rename ${from}`;
    this.#to = from;
  }

  unsaved(): boolean {
    return !this.pane.attempts.isBusy(this) && this.#to !== this.from;
  }

  view(): TemplateResult {
    return html`<form
      novalidate
      @submit=${(event: Event) => {
        event.preventDefault();
        void this.#rename();
      }}
    >
      ${textField({
        id: "rename",
        label: "New name",
        value: this.#to,
        error: this.#error,
        onInput: (value) => {
          this.#to = value;
          this.#error = undefined;
          this.pane.changed.emit();
        },
      })}
      <div class="row"><button class="primary" type="submit">Rename</button></div>
    </form>`;
  }

  #check(to: string): string | undefined {
    if (to === "") return "Give a name.";
    if (to.length > LONGEST_NAME) return `The name has ${to.length} characters; allowed are ${LONGEST_NAME}.`;
    if (nameKey(to) !== nameKey(this.from) && findInstrument(this.pane.instruments.set, to))
      return "Another instrument of this workbook has this name.";
    return undefined;
  }

  async #rename(): Promise<void> {
    const { pane, from } = this;
    const to = this.#to.trim();
    this.#error = this.#check(to);
    pane.changed.emit();
    if (this.#error !== undefined) return;
    if (await pane.attempts.once(this, () => renameInstrument(pane, from, to, this.renamed.emit)))
      pane.screens.close(this);
  }
}
