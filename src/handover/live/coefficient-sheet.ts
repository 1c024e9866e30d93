import { areaText } from "../../cells/a1.js";
import { quotedSheetName } from "../../formulas/sheet-name.js";
import type { CellValue } from "../../workbook/model.js";
import type { NewSheet } from "../../workbook/sheet/new-sheet.js";
import type { CoefficientBlock, Places } from "../fit/expression.js";

type Row = readonly CellValue[];

const WIDTHS = [34, 20, 20, 20, 20, 20, 20, 20, 20, 20];

const HEAD: readonly string[] = [
  "Coefficients of the live formulas of this workbook. Formulas refer to them: keep this sheet. It may be renamed or hidden.",
  "A formula adds up coefficient × (scaled variable) to the power above its column × (scaled variable) to the power left of its row.",
  "An upright block has its powers at the left. Outside of the range of its function a formula shows #N/A.",
];

/** The sheet that live formulas take their coefficients from. */
export class CoefficientSheet {
  readonly #rows: Row[];
  readonly #places = new Map<CoefficientBlock, Map<boolean, string>>();

  /** @param name that no other sheet of the workbook has */
  constructor(
    readonly name: string,
    date: string,
  ) {
    this.#rows = [...HEAD.map((line) => [line]), ["Date", date]];
  }

  /** Adds the heading of a function: rows of a label and what it says. */
  head(title: string, facts: readonly (readonly [label: string, says: string])[]): void {
    this.#rows.push([], [title], ...facts);
  }

  /** Places for the formula of a function that has its heading. */
  places(listsGoDown: boolean): Places {
    return { listsGoDown, block: (block, upright) => this.#reference(block, upright) };
  }

  /** The sheet to add. */
  get sheet(): NewSheet {
    return { name: this.name, isReferenced: true, rows: this.#rows, widths: WIDTHS };
  }

  #reference(block: CoefficientBlock, upright: boolean): string {
    const known = this.#places.get(block) ?? new Map<boolean, string>();
    this.#places.set(block, known);
    const before = known.get(upright);
    if (before !== undefined) return before;
    const made = this.#write(block, upright);
    known.set(upright, made);
    return made;
  }

  /** Writes a block below everything else, with its powers above and at the left. */
  #write({ title, worst, variables, rows }: CoefficientBlock, upright: boolean): string {
    const shown = upright ? (rows[0] ?? []).map((each) => [each]) : rows;
    const columns = shown[0]?.length ?? 0;
    const [across, down] = upright ? [undefined, variables[0]] : variables;
    this.#rows.push([
      title,
      ...(across === undefined ? [] : [`columns: ${across}`]),
      ...(down === undefined ? [] : [`rows: ${down}`]),
      `within ${errorText(worst)}`,
    ]);
    this.#rows.push(["power", ...Array.from({ length: columns }, (_, i) => i)]);
    const top = this.#rows.length;
    for (const [power, row] of shown.entries()) this.#rows.push([power, ...row]);
    const area = areaText({ top, left: 1, bottom: top + shown.length - 1, right: columns });
    return `${quotedSheetName(this.name)}!${absolute(area)}`;
  }
}

const absolute = (area: string): string => area.replace(/([A-Z]+)(\d+)/g, "$$$1$$$2");

/** Rounded up, without an exponent. */
export function errorText(worst: number): string {
  const digits = Math.max(0, Math.ceil(-Math.log10(Math.max(worst, 1e-9))) + 1);
  const step = 10 ** -digits;
  return (Math.ceil(worst / step) * step).toFixed(digits);
}
