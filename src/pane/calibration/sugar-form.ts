import { html, nothing, type TemplateResult } from "lit";
import { gravityOfExtract } from "../../core/liquid/gravity.js";
import { type Reason, Refusal } from "../../core/refusal.js";
import { extractFrom, writtenSg } from "../../core/liquid/scales.js";
import {
  gravityPerGram,
  solutionStrength,
  sugarSolution,
  type SolutionSize,
} from "../../core/liquid/sugar-solution.js";
import { choiceField, textField } from "../parts/fields.js";
import { fixed, numberOf } from "../parts/number-text.js";
import type { Emitter } from "../source.js";

const sizes = {
  total: { label: "Made up with water to", unit: "g" },
  water: { label: "Dissolved in water", unit: "g" },
  litres: { label: "Made up at 20 °C to", unit: "mL" },
} as const;
type SizeKind = keyof typeof sizes;

const strengthScales = {
  SG: "SG",
  P: "°P",
  BX: "°Bx",
} as const;

/** The text of each field of the form. */
interface Typed {
  readonly wanted: string;
  readonly scale: keyof typeof strengthScales;
  readonly kind: SizeKind;
  readonly size: string;
  readonly weighed: string;
}

/** The number in a field, or what is wrong with it. */
function attempt<T>(work: () => T, sentence: (reason: Reason) => string): { value: T } | { error: string } {
  try {
    return { value: work() };
  } catch (error) {
    if (error instanceof Refusal) return { error: sentence(error.reason) };
    throw error;
  }
}

const sizeOf = (kind: SizeKind, amount: number): SolutionSize =>
  kind === "total" ? { total: amount } : kind === "water" ? { water: amount } : { litres: amount / 1000 };

const strengthText = (extract: number): string =>
  `${fixed(gravityOfExtract(extract), 4)} (${fixed(extract, 2)} °P)`;

/** Calculates sugar solutions: a known gravity with nothing but a pair of scales. */
export class SugarForm {
  #typed: Typed = { wanted: "", scale: "SG", kind: "total", size: "500", weighed: "" };

  /** @param use adds a strength to the pairs, as text */
  constructor(
    private readonly changed: Emitter,
    private readonly sentence: (reason: Reason) => string,
    private readonly use: (extract: number) => void,
  ) {}

  view(): TemplateResult {
    const typed = this.#typed;
    const size = this.#size();
    const wanted = this.#wanted();
    const made = this.#made();
    return html`<details>
      <summary>Weigh a sugar solution</summary>
      <p>
        Plain white sugar and water on one pair of scales: °P is by definition the grams of sugar in 100 g.
        Dissolve it all, and let it cool.
      </p>
      ${textField({
        id: "sugar-wanted",
        label: "Wanted strength",
        numeric: true,
        value: typed.wanted,
        error: "error" in wanted && typed.wanted.trim() !== "" ? wanted.error : undefined,
        onInput: (text) => {
          this.#set({ wanted: text });
        },
      })}
      ${choiceField({
        id: "sugar-scale",
        label: "Strength is written as",
        value: typed.scale,
        choices: Object.entries(strengthScales).map(([value, label]) => ({ value, label })),
        onChoose: (value) => {
          this.#set({ scale: value as Typed["scale"] });
        },
      })}
      ${choiceField({
        id: "sugar-kind",
        label: "How it is made",
        value: typed.kind,
        choices: Object.entries(sizes).map(([value, { label, unit }]) => ({
          value,
          label: `${label} … ${unit}`,
        })),
        onChoose: (value) => {
          this.#set({ kind: value as SizeKind });
        },
      })}
      ${textField({
        id: "sugar-size",
        label: sizes[typed.kind].label,
        numeric: true,
        unit: sizes[typed.kind].unit,
        value: typed.size,
        error: "error" in size ? size.error : undefined,
        onInput: (text) => {
          this.#set({ size: text });
        },
      })}
      <p role="status">${"value" in wanted ? this.#recipe(wanted.value) : nothing}</p>
      ${textField({
        id: "sugar-weighed",
        label: "Sugar really weighed",
        optional: true,
        numeric: true,
        unit: "g",
        value: typed.weighed,
        error: "error" in made && typed.weighed.trim() !== "" ? made.error : undefined,
        hint: "Then the strength is what you have made, not what you wanted.",
        onInput: (text) => {
          this.#set({ weighed: text });
        },
      })}
      <div role="status">
        ${
          "value" in made
            ? html`<p>That is ${strengthText(made.value)}.</p>
                <button
                  type="button"
                  @click=${() => {
                    this.use(made.value);
                  }}
                >
                  Add a pair of this strength
                </button>`
            : nothing
        }
      </div>
    </details>`;
  }

  #set(some: Partial<Typed>): void {
    this.#typed = { ...this.#typed, ...some };
    this.changed.emit();
  }

  #number(text: string): { value: number } | { error: string } {
    const value = numberOf(text);
    if (value !== undefined) return { value };
    return { error: text.trim() === "" ? "This is needed." : `"${text.slice(0, 30)}" is not a number.` };
  }

  #size(): { value: SolutionSize } | { error: string } {
    const amount = this.#number(this.#typed.size);
    if ("error" in amount) return amount;
    const size = sizeOf(this.#typed.kind, amount.value);
    return attempt(() => {
      sugarSolution(0, size);
      return size;
    }, this.sentence);
  }

  #wanted(): { value: number } | { error: string } {
    const number = this.#number(this.#typed.wanted);
    if ("error" in number) return number;
    return attempt(() => {
      const { scale } = this.#typed;
      const extract = extractFrom(scale === "SG" ? writtenSg(number.value) : number.value, scale);
      sugarSolution(extract, { total: 100 });
      return extract;
    }, this.sentence);
  }

  /** Strength of the solution that was weighed, or of the recipe if no weights are typed. */
  #made(): { value: number } | { error: string } {
    const size = this.#size();
    if ("error" in size || this.#typed.weighed.trim() === "") return "error" in size ? size : this.#wanted();
    const sugar = this.#number(this.#typed.weighed);
    if ("error" in sugar) return sugar;
    return attempt(() => solutionStrength(sugar.value, size.value), this.sentence);
  }

  #recipe(extract: number): TemplateResult | typeof nothing {
    const size = this.#size();
    if ("error" in size) return nothing;
    const { sugar, water, total } = sugarSolution(extract, size.value);
    const withWater =
      this.#typed.kind === "litres"
        ? `and water up to the mark (about ${fixed(water, 1)} g)`
        : `and ${fixed(water, 1)} g of water`;
    return html`<strong>${fixed(sugar, 1)} g of sugar ${withWater}</strong>: ${fixed(total, 1)} g in all, a
      gravity of ${strengthText(extract)}. One gram of sugar too much raises it by
      ${fixed(gravityPerGram(extract, size.value), 5)}.`;
  }
}
