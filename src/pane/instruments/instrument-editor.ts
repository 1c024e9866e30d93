import { html, nothing, type TemplateResult } from "lit";
import { kindOf } from "../../instruments/describe.js";
import { add, put } from "../../instruments/edits.js";
import { nameKey } from "../../instruments/name.js";
import type { Profile } from "../../instruments/schema.js";
import type { InstrumentSet } from "../../instruments/set.js";
import { choiceField, textField } from "../parts/fields.js";
import type { Pane } from "../pane.js";
import type { Screen } from "../parts/screen.js";
import { draftOf, profileOf, type Errors } from "./instrument-draft.js";
import { fieldsOf, type FormField, type FieldValues } from "./instrument-fields.js";

interface Start {
  readonly profile: Profile;
  /** Others to add after this one, such as the second of a pair. */
  readonly more?: readonly Profile[];
  /** Its name, if it is already in the workbook. Otherwise a new one is created. */
  readonly editing?: string;
  /** The screen to open once a new one, and the last of `more`, is in the workbook. */
  readonly then?: (name: string) => Screen;
}

/**
 * Usual difference between readings at the raised edge and at the level surface, by scale: common practice, no source.
 */
const USUAL_ALLOWANCE: Readonly<Record<string, string>> = { SG: "0.001", P: "0.25", BX: "0.25" };

/** Form for a new or an existing instrument. */
export class InstrumentEditor implements Screen {
  readonly title: string;
  #values: FieldValues;
  readonly #first: string;
  readonly #touched = new Set<string>();

  constructor(
    private readonly pane: Pane,
    private readonly start: Start,
  ) {
    const { profile, editing } = start;
    this.title = editing === undefined ? `New ${kindOf(profile)}` : `Edit ${editing}`;
    this.#values = draftOf(profile);
    this.#first = JSON.stringify(this.#values);
  }

  unsaved(): boolean {
    return !this.pane.attempts.isBusy(this) && JSON.stringify(this.#values) !== this.#first;
  }

  view(): TemplateResult {
    const { profile, editing } = this.start;
    const errors = this.#errors();
    const general = errors[""];
    const isSaving = this.pane.attempts.isBusy(this);
    return html`<form
      novalidate
      aria-busy=${String(isSaving)}
      @submit=${(event: Event) => {
        event.preventDefault();
        void this.#save(event.target as HTMLFormElement);
      }}
    >
      <fieldset class="bare" ?disabled=${isSaving}>
        ${
          editing === undefined
            ? textField({
                id: "field-name",
                label: "Name",
                hint: "What your formulas will say.",
                value: this.#values["name"] ?? "",
                error: this.#touched.has("name") ? errors["name"] : undefined,
                onInput: (value) => {
                  this.#set("name", value);
                },
                onLeave: () => {
                  this.#leave("name");
                },
              })
            : nothing
        }
        ${fieldsOf[profile.kind]
          .filter((field) => field.when?.(this.#values) ?? true)
          .map((field) => this.#field(field, errors))}
        ${
          general !== undefined && this.#touched.has("")
            ? html`<p class="error" role="alert">${general}</p>`
            : nothing
        }
        <div class="row">
          <button class="primary" type="submit">
            ${isSaving ? "Saving …" : editing === undefined ? "Add to workbook" : "Save"}
          </button>
        </div>
      </fieldset>
    </form>`;
  }

  #field(field: FormField, errors: Errors): TemplateResult {
    const { key, label, hint, optional, choices } = field;
    const words = {
      id: `field-${key}`,
      label,
      hint,
      optional,
      value: this.#values[key] ?? "",
      error: this.#touched.has(key) ? errors[key] : undefined,
    };
    if (choices)
      return choiceField({
        ...words,
        choices,
        onChoose: (value) => {
          this.#choose(key, value);
        },
      });
    return textField({
      ...words,
      numeric: true,
      unit: field.unit?.(this.#values),
      onInput: (value) => {
        this.#set(key, value);
      },
      onLeave: () => {
        this.#leave(key);
      },
    });
  }

  /** A field is not marked as wrong while it is still being filled in. */
  #leave(key: string): void {
    this.#touched.add(key);
    this.pane.changed.emit();
  }

  #set(key: string, value: string): void {
    this.#values = { ...this.#values, [key]: value };
    this.pane.changed.emit();
  }

  #choose(key: string, value: string): void {
    this.#set(key, value);
    const allowance = USUAL_ALLOWANCE[this.#values["scale"] ?? ""] ?? "";
    if (key === "read" && value === "top" && this.#values["meniscusAllowance"] === "")
      this.#set("meniscusAllowance", allowance);
  }

  #others(): InstrumentSet {
    const { set } = this.pane.instruments;
    const own = this.start.editing;
    return {
      ...set,
      instruments: set.instruments.filter(({ name }) => own === undefined || nameKey(name) !== nameKey(own)),
    };
  }

  /** The profile as it is in the workbook now; it may have got check points since the form was opened. */
  #base(): Profile {
    const { profile, editing } = this.start;
    if (editing === undefined) return profile;
    return (
      this.pane.instruments.set.instruments.find(
        ({ name, kind }) => kind === profile.kind && nameKey(name) === nameKey(editing),
      ) ?? profile
    );
  }

  #read(): ReturnType<typeof profileOf> {
    return profileOf(this.#values, this.#base(), this.#others());
  }

  #errors(): Errors {
    const read = this.#read();
    return "errors" in read ? read.errors : {};
  }

  async #save(form: HTMLFormElement): Promise<void> {
    const read = this.#read();
    if ("errors" in read) {
      for (const key of Object.keys(read.errors)) this.#touched.add(key);
      this.pane.changed.emit();
      await Promise.resolve();
      form.querySelector<HTMLElement>("[aria-invalid=true]")?.focus();
      return;
    }
    const { profile } = read;
    const { editing } = this.start;
    const done = await this.pane.attempts.once(this, () =>
      this.pane.instruments.change(
        (set, now) => (editing === undefined ? add : put)(set, profile, now),
        editing === undefined ? `"${profile.name}" is in this workbook now.` : `"${profile.name}" is saved.`,
      ),
    );
    if (done) this.#goOn(profile.name);
    else form.querySelector<HTMLElement>("[type=submit]")?.focus();
  }

  /** Does not interrupt a user who has left meanwhile. */
  #goOn(name: string): void {
    const { pane, start } = this;
    const { editing, more = [], then } = start;
    const [next, ...rest] = more;
    if (next) pane.screens.replace(this, new InstrumentEditor(pane, { ...start, profile: next, more: rest }));
    else if (editing === undefined && then) pane.screens.replace(this, then(name), true);
    else pane.screens.close(this);
  }
}
