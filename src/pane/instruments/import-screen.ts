import { html, nothing, type TemplateResult } from "lit";
import { compareInstruments, takeIn, type Choice, type Incoming } from "../../instruments/comparison.js";
import { factsOf, kindOf } from "../../instruments/describe.js";
import { InstrumentsRefused } from "../../instruments/refusal.js";
import type { Profile } from "../../instruments/schema.js";
import { LONGEST_TEXT, parseSet, type InstrumentSet } from "../../instruments/set.js";
import { choiceField } from "../parts/fields.js";
import { sentenceOf } from "../parts/failure.js";
import type { Pane } from "../pane.js";
import type { Screen } from "../parts/screen.js";
import { formulaCount, usersOf } from "../parts/usage.js";

const choices: readonly { readonly value: Choice; readonly label: string }[] = [
  { value: "keep", label: "Keep what is here" },
  { value: "replace", label: "Take the one from the file" },
  { value: "both", label: "Keep both, the file's under another name" },
];

const oneLine = (profile: Profile): string => [kindOf(profile), ...factsOf(profile)].join(" · ");

const instrumentCount = (n: number): string => `${n} ${n === 1 ? "instrument" : "instruments"}`;

/** Imports instruments from a file: the user previews and chooses them first. */
export class ImportScreen implements Screen {
  readonly title = "Import instruments";
  #file: { readonly name: string; readonly set: InstrumentSet } | undefined;
  #problems: readonly string[] = [];
  readonly #chosen = new Map<string, Choice>();

  constructor(private readonly pane: Pane) {}

  view(): TemplateResult {
    return html`<p>
        From a file that Gylesheet exported. Nothing here changes before you have seen what would.
      </p>
      <div class="field">
        <label for="import-file">File</label>
        <input
          id="import-file"
          type="file"
          accept=".json,application/json"
          aria-describedby=${this.#problems.length > 0 ? "import-problems" : nothing}
          @change=${(event: Event) => void this.#read((event.target as HTMLInputElement).files?.[0])}
        />
      </div>
      ${
        this.#problems.length > 0
          ? html`<div class="error" id="import-problems" role="alert">
              <p>The file was not taken.</p>
              <ul>
                ${this.#problems.slice(0, 10).map((problem) => html`<li>${problem}</li>`)}
                ${
                  this.#problems.length > 10
                    ? html`<li>… and ${this.#problems.length - 10} more</li>`
                    : nothing
                }
              </ul>
            </div>`
          : nothing
      }
      ${this.#file ? this.#preview(compareInstruments(this.pane.instruments.set, this.#file.set)) : nothing}`;
  }

  #preview(incoming: readonly Incoming[]): TemplateResult {
    const fresh = incoming.filter(({ present }) => !present);
    const same = incoming.filter((each) => each.same);
    const differing = incoming.filter((each) => each.present && !each.same);
    const comes = fresh.length + differing.filter((each) => this.#choice(each) !== "keep").length;
    return html`<div role="status">
        <p dir="auto">
          ${this.#file?.name} has ${instrumentCount(incoming.length)}: ${fresh.length} new,
          ${differing.length} different from what is here, ${same.length} the same.
        </p>
      </div>
      ${
        fresh.length > 0
          ? html`<h2>New</h2>
              <ul class="plain">
                ${fresh.map(({ profile }) => html`<li><strong dir="auto">${profile.name}</strong> ${oneLine(profile)}</li>`)}
              </ul>`
          : nothing
      }
      ${
        differing.length > 0
          ? html`<h2>Different</h2>
              ${differing.map((each, i) => this.#difference(each, i))}`
          : nothing
      }
      <div class="row">
        <button class="primary" ?disabled=${comes === 0} @click=${() => void this.#take(incoming)}>
          ${comes === 0 ? "Nothing to take" : `Take ${instrumentCount(comes)}`}
        </button>
      </div>`;
  }

  #difference(incoming: Incoming, i: number): TemplateResult {
    const { profile, present } = incoming;
    return html`<fieldset>
      <legend dir="auto">${profile.name}</legend>
      <p><strong>Here:</strong> ${present ? oneLine(present) : nothing}</p>
      <p><strong>In the file:</strong> ${oneLine(profile)}</p>
      ${
        present && present.kind !== profile.kind && this.#choice(incoming) === "replace"
          ? html`<p class="error" role="alert">${this.#otherKind(profile)}</p>`
          : nothing
      }
      ${choiceField({
        id: `import-choice-${i}`,
        label: "Do what",
        value: this.#choice(incoming),
        choices,
        onChoose: (value) => {
          this.#chosen.set(profile.name, value as Choice);
          this.pane.changed.emit();
        },
      })}
    </fieldset>`;
  }

  /** Functions refuse an instrument of a kind that they cannot use. */
  #otherKind(profile: Profile): string {
    const users = usersOf(this.pane.recalculator.formulas ?? [], profile.name).length;
    return `The one in the file is a ${kindOf(profile)}. ${formulaCount(users)} that ${users === 1 ? "names" : "name"} "${profile.name}" may show an error with it; keep both if that is not meant.`;
  }

  #choice({ profile }: Incoming): Choice {
    return this.#chosen.get(profile.name) ?? "keep";
  }

  async #read(file: File | undefined): Promise<void> {
    this.#file = undefined;
    this.#problems = [];
    this.#chosen.clear();
    try {
      if (!file) return;
      // Checked before reading: a file of this size would only block the page.
      if (file.size > 4 * LONGEST_TEXT)
        throw new InstrumentsRefused("unreadable", [
          `The file has ${Math.round(file.size / 1e6)} MB; instruments take less than 1. Is it the right file?`,
        ]);
      this.#file = { name: file.name, set: parseSet(await file.text()) };
    } catch (error) {
      this.#problems = error instanceof InstrumentsRefused ? error.problems : [sentenceOf(error)];
    } finally {
      this.pane.changed.emit();
    }
  }

  async #take(incoming: readonly Incoming[]): Promise<void> {
    const before = this.pane.instruments.set;
    const done = await this.pane.attempts.once(this, () =>
      this.pane.instruments.change(
        (set, now) => takeIn(set, incoming, (each) => this.#choice(each), now),
        `Instruments of ${this.#file?.name ?? "the file"} are in this workbook now.`,
      ),
    );
    if (done && before !== this.pane.instruments.set) this.pane.screens.close(this);
  }
}
