// Native form fields, each linked to its label, hint and error.
import { html, nothing, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";

interface Words {
  /** Unique on the screen. */
  readonly id: string;
  readonly label: string;
  readonly hint?: string | undefined;
  readonly optional?: boolean | undefined;
  readonly error?: string | undefined;
}

export interface TextField extends Words {
  readonly value: string;
  readonly unit?: string | undefined;
  readonly numeric?: boolean | undefined;
  readonly onInput: (value: string) => void;
  /** Called when the user leaves the field. */
  readonly onLeave?: (() => void) | undefined;
}

export interface ChoiceField extends Words {
  readonly value: string;
  readonly choices: readonly { readonly value: string; readonly label: string }[];
  readonly onChoose: (value: string) => void;
}

function around({ id, label, hint, optional, error }: Words, entry: TemplateResult): TemplateResult {
  return html`<div class="field">
    <label for=${id}>${label}${optional ? html` <span class="optional">(optional)</span>` : nothing}</label>
    ${entry} ${error === undefined ? nothing : html`<p class="error" id="${id}-error">${error}</p>`}
    ${hint === undefined ? nothing : html`<p class="hint" id="${id}-hint">${hint}</p>`}
  </div>`;
}

const describedBy = ({ id, hint, error }: Words): string | typeof nothing =>
  [error === undefined ? [] : `${id}-error`, hint === undefined ? [] : `${id}-hint`].flat().join(" ") ||
  nothing;

export function textField(field: TextField): TemplateResult {
  const { id, value, unit, numeric, error, onInput, onLeave } = field;
  return around(
    field,
    html`<span class="entry">
      <input
        id=${id}
        dir="auto"
        autocomplete="off"
        spellcheck="false"
        inputmode=${numeric ? "decimal" : nothing}
        .value=${live(value)}
        aria-invalid=${error === undefined ? nothing : "true"}
        aria-describedby=${describedBy(field)}
        @input=${(event: Event) => {
          onInput((event.target as HTMLInputElement).value);
        }}
        @change=${() => onLeave?.()}
      />
      ${unit === undefined ? nothing : html`<span class="unit">${unit}</span>`}
    </span>`,
  );
}

export function choiceField(field: ChoiceField): TemplateResult {
  const { id, value, choices, error, onChoose } = field;
  return around(
    field,
    html`<select
      id=${id}
      .value=${live(value)}
      aria-invalid=${error === undefined ? nothing : "true"}
      aria-describedby=${describedBy(field)}
      @change=${(event: Event) => {
        onChoose((event.target as HTMLSelectElement).value);
      }}
    >
      ${choices.map(
        (choice) =>
          html`<option value=${choice.value} ?selected=${choice.value === value}>${choice.label}</option>`,
      )}
    </select>`,
  );
}
