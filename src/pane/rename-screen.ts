import { html, type TemplateResult } from "lit";
import { rename } from "../instruments/edits.js";
import { findInstrument } from "../instruments/find.js";
import { nameKey } from "../instruments/name.js";
import { LONGEST_NAME } from "../instruments/schema.js";
import { textField } from "./fields.js";
import type { Pane } from "./pane.js";
import type { OurFormula } from "./ports.js";
import type { Screen } from "./screen.js";
import { formulaCount, usersOf } from "./usage.js";

/** Another name for an instrument, and for the formulas that name it. */
export class RenameScreen implements Screen {
  readonly title: string;
  #to: string;
  #error: string | undefined;

  constructor(
    private readonly pane: Pane,
    private readonly from: string,
    private readonly onRenamed: (to: string) => void,
  ) {
    this.title = `Rename ${from}`;
    this.#to = from;
  }

  unsaved(): boolean {
    return this.#to !== this.from;
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
          this.pane.update();
        },
      })}
      <div class="row"><button class="primary" type="submit">Rename</button></div>
    </form>`;
  }

  #check(to: string): string | undefined {
    if (to === "") return "Give a name.";
    if (to.length > LONGEST_NAME) return `The name has ${to.length} characters; allowed are ${LONGEST_NAME}.`;
    if (nameKey(to) !== nameKey(this.from) && findInstrument(this.pane.set, to))
      return "Another instrument of this workbook has this name.";
    return undefined;
  }

  async #rename(): Promise<void> {
    const { pane, from } = this;
    const to = this.#to.trim();
    this.#error = this.#check(to);
    pane.update();
    if (this.#error !== undefined) return;
    // Names are compared without case: a formula that differs only by it goes on.
    const users = nameKey(to) === nameKey(from) ? [] : usersOf(pane.sweep.formulas ?? [], from);
    const answer = users.length === 0 ? "alone" : await this.#askAbout(users);
    if (answer === undefined) return;
    const done = await pane.change(
      (set, now) => rename(set, from, to, now),
      `"${from}" is now "${to}".`,
      answer === "alone" ? (set, now) => rename(set, to, from, now) : undefined,
    );
    if (!done) return;
    this.onRenamed(to);
    pane.close(this);
    if (answer === "formulas") await this.#rewrite(users, to);
  }

  #askAbout(users: readonly OurFormula[]): Promise<"formulas" | "alone" | undefined> {
    return this.pane.ask({
      title: `${formulaCount(users.length)} name "${this.from}"`,
      text: "They can be given the new name as well. Otherwise they show #N/A until there is an instrument of the old name again.",
      answers: [
        { answer: "formulas", label: "Rename in formulas too", tone: "primary" },
        { answer: "alone", label: "Only the instrument" },
      ],
    });
  }

  async #rewrite(users: readonly OurFormula[], to: string): Promise<void> {
    const { pane } = this;
    const report = await pane.work("Rewriting formulas", (work) =>
      pane.host.formulas.rename(users, this.from, to, work),
    );
    if (report) pane.report(report, "rewritten");
    await pane.sweep.find();
  }
}
