import { html, type TemplateResult } from "lit";
import { repeat } from "lit/directives/repeat.js";
import { fieldKey, type Column, type PairErrors, type TypedPair } from "./calibration-pairs.js";
import { textField } from "../parts/fields.js";

export interface RowWords {
  readonly label: string;
  readonly unit: string | undefined;
}

export interface PairRows {
  readonly rows: readonly TypedPair[];
  readonly columns: readonly Column[];
  readonly words: Readonly<Record<Column, RowWords>>;
  readonly errors: PairErrors;
  readonly onInput: (id: number, column: Column, text: string) => void;
  readonly onLeave: (id: number, column: Column) => void;
  readonly onRemove: (id: number) => void;
}

/** The typed pairs, a group of fields each. */
export function calibrationRows(all: PairRows): TemplateResult {
  const { rows, columns, words, errors, onInput, onLeave, onRemove } = all;
  return html`${repeat(
    rows,
    ({ id }) => id,
    (pair, i) =>
      html`<fieldset class="pair">
        <legend>Pair ${i + 1}</legend>
        ${columns.map((column) => {
          const key = fieldKey(pair.id, column);
          return textField({
            ...words[column],
            id: key,
            numeric: true,
            value: pair[column],
            error: errors.get(key),
            onInput: (text) => {
              onInput(pair.id, column, text);
            },
            onLeave: () => {
              onLeave(pair.id, column);
            },
          });
        })}
        <button
          type="button"
          class="quiet"
          @click=${() => {
            onRemove(pair.id);
          }}
        >
          Remove<span class="unseen"> pair ${i + 1}</span>
        </button>
      </fieldset>`,
  )}`;
}
