import { html, nothing, type TemplateResult } from "lit";
import type { Profile } from "../../instruments/schema.js";
import { scaleUnit, type CalibrationMethod } from "./calibration-method.js";
import {
  columns,
  fieldKey,
  isBlankPair,
  strengthText,
  typedPair,
  type Column,
  type PairErrors,
  type StrengthScale,
  type Typed,
} from "./calibration-pairs.js";
import { calibrationRows, type RowWords } from "./calibration-rows.js";
import { sentenceOf } from "../parts/failure.js";
import { choiceField, textField } from "../parts/fields.js";
import { keptPairs } from "./kept-pairs.js";
import type { Pane } from "../pane.js";
import { takePairs } from "./selected-pairs.js";

/** The pairs of a calibration, typed or taken from cells. */
export class PairList {
  /** Replaced by a new object on every change. */
  typed: Typed;
  readonly #left = new Set<string>();
  #taking: { readonly says: string } | { readonly problems: readonly string[] } | undefined;

  constructor(
    private readonly pane: Pane,
    profile: Profile,
  ) {
    const bySg = profile.kind === "refractometer" || profile.scale === "SG";
    this.typed = { strengthScale: bySg ? "SG" : "P", temperature: "", rows: [typedPair()] };
  }

  get isBlank(): boolean {
    return this.typed.rows.every(isBlankPair);
  }

  /** @param errors of all fields; those in fields that the user has not left yet are not shown */
  view(profile: Profile, method: CalibrationMethod, errors: PairErrors): TemplateResult {
    const { strengthScale, temperature, rows } = this.typed;
    const unit = profile.kind === "floating" ? undefined : `°${profile.temperatureUnit}`;
    const words: Record<Column, RowWords> = {
      reading: { label: "Reading", unit: scaleUnit[profile.scale] },
      temperature: { label: "Temperature", unit },
      strength: { label: method.strengthLabel, unit: scaleUnit[strengthScale] },
    };
    return html`${method.columns.includes("strength") ? this.#strengthField(words.strength.label) : nothing}
      ${
        method.columns.includes("temperature")
          ? textField({
              id: "calibration-temperature",
              label: "Temperature of all pairs that give none",
              optional: true,
              numeric: true,
              unit,
              value: temperature,
              onInput: (text) => {
                this.#set({ temperature: text });
              },
            })
          : nothing
      }
      ${calibrationRows({
        rows,
        columns: method.columns,
        words,
        errors: new Map([...errors].filter(([key]) => this.#left.has(key))),
        onInput: (id, column, text) => {
          this.#set({ rows: rows.map((row) => (row.id === id ? { ...row, [column]: text } : row)) });
        },
        onLeave: (id, column) => {
          this.#left.add(fieldKey(id, column));
          this.pane.changed.emit();
        },
        onRemove: (id) => {
          this.#remove(id);
        },
      })}
      <div class="row">
        <button
          type="button"
          @click=${() => {
            this.add();
          }}
        >
          Add a pair
        </button>
        <button type="button" @click=${() => void this.#take(method)}>Take the selected cells</button>
        ${this.#keptButton(profile)}
      </div>
      ${this.#takenView()}`;
  }

  /** Adds a pair and focuses it. */
  add(extract?: number): void {
    const { strengthScale, rows } = this.typed;
    const pair = typedPair(extract === undefined ? {} : { strength: strengthText(extract, strengthScale) });
    this.#set({
      rows: extract === undefined ? [...rows, pair] : [...rows.filter((row) => !isBlankPair(row)), pair],
    });
    this.#focus(pair.id);
  }

  /** Shows all errors from now on. */
  leaveAll(): void {
    for (const { id } of this.typed.rows) for (const column of columns) this.#left.add(fieldKey(id, column));
    this.pane.changed.emit();
  }

  #strengthField(label: string): TemplateResult {
    return choiceField({
      id: "calibration-strength",
      label: `${label} is written as`,
      value: this.typed.strengthScale,
      choices: [
        { value: "SG", label: "SG" },
        { value: "P", label: "°P" },
      ],
      onChoose: (value) => {
        this.#set({ strengthScale: value as StrengthScale });
      },
    });
  }

  #keptButton(profile: Profile): TemplateResult | typeof nothing {
    const kept = keptPairs(profile, this.typed.strengthScale);
    if (kept.length === 0) return nothing;
    return html`<button
      type="button"
      @click=${() => {
        this.#append(kept);
      }}
    >
      Add the pairs it has
    </button>`;
  }

  #takenView(): TemplateResult | typeof nothing {
    if (!this.#taking) return nothing;
    if ("says" in this.#taking) return html`<p role="status">${this.#taking.says}</p>`;
    const { problems } = this.#taking;
    return html`<div class="error" role="alert">
      <p>Nothing was taken.</p>
      <ul>
        ${problems.slice(0, 10).map((problem) => html`<li>${problem}</li>`)}
        ${problems.length > 10 ? html`<li>… and ${problems.length - 10} more</li>` : nothing}
      </ul>
    </div>`;
  }

  #set(some: Partial<Typed>): void {
    this.typed = { ...this.typed, ...some };
    this.pane.changed.emit();
  }

  /** Appends pairs to the existing ones. */
  #append(pairs: readonly Partial<Record<Column, string>>[]): void {
    this.#set({ rows: [...this.typed.rows.filter((row) => !isBlankPair(row)), ...pairs.map(typedPair)] });
    this.leaveAll();
  }

  #remove(id: number): void {
    const at = this.typed.rows.findIndex((row) => row.id === id);
    const rest = this.typed.rows.toSpliced(at, 1);
    const rows = rest.length > 0 ? rest : [typedPair()];
    this.#set({ rows });
    const next = rows[Math.min(at, rows.length - 1)];
    if (next) this.#focus(next.id);
  }

  async #take({ columns: wanted }: CalibrationMethod): Promise<void> {
    const { selection, functions } = this.pane.host;
    try {
      const taken = takePairs(await selection.read(), wanted, functions.sentences);
      this.#taking = taken;
      if ("pairs" in taken) this.#append(taken.pairs);
    } catch (error) {
      this.#taking = { problems: [sentenceOf(error)] };
    }
    this.pane.changed.emit();
  }

  #focus(id: number): void {
    // Drawing happens in a microtask that is already queued.
    queueMicrotask(() => document.getElementById(fieldKey(id, "reading"))?.focus());
  }
}
