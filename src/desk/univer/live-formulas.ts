import type { Surroundings } from "../../engine/references/surroundings.js";
import { type Position, positionKey } from "../../cells/place.js";
import type { Area } from "../../cells/area.js";
import { tokenize, tokenTypes } from "@borgar/fx/xlsx";
import { Book } from "../../engine/references/book.js";
import type { CellFunctions } from "../../engine/ours/cell-functions.js";
import { engineText } from "../../engine/references/engine-text.js";
import { Templates, type Library } from "../../engine/references/templates.js";
import { translate } from "../../engine/references/translate.js";
import { typedFormula } from "../../formulas/formula-text.js";
import type { Formula, WorkbookModel } from "../../workbook/model.js";

/** How the sheet on the page treats a formula of the file. */
export type Live =
  /** It is calculated. With "=". */
  | { readonly text: string; readonly own: boolean }
  /** It cannot be calculated here as in Excel, so its cell shows the stored value. */
  | { readonly kept: string };

const fixedArea = "It fills a fixed area, which is not done here.";

/** References that only the workbook can resolve; in the sheet they are replaced by the cells that they refer to. */
const told = new Set<string>([tokenTypes.REF_NAMED, tokenTypes.REF_STRUCT]);
const prefixed = new Set(["ANCHORARRAY", "_XLFN.ANCHORARRAY", "SINGLE", "_XLFN.SINGLE"]);

/** Translates the formulas of a workbook for the sheet. */
export class LiveFormulas {
  readonly #book: Book;
  readonly #templates: Templates;
  readonly #around: Surroundings;

  constructor(
    model: WorkbookModel,
    private readonly functions: CellFunctions,
    library: Library,
  ) {
    this.#book = new Book(model);
    this.#templates = new Templates(this.#book, functions, library);
    this.#around = { book: this.#book, ...extent(model), spilledFrom: spills(model) };
  }

  of(formula: Formula, at: Position): Live {
    const { obstacle, own } = this.#templates.of(formula, at);
    if (obstacle !== undefined) return { kept: obstacle };
    if (formula.kind === "array" && !own && formula.area && !isOneCell(formula.area))
      return { kept: fixedArea };
    return { text: needsBook(formula.text) ? this.#resolved(formula, at) : `=${this.#typed(formula)}`, own };
  }

  #typed({ text }: Formula): string {
    return typedFormula(text, this.functions);
  }

  #resolved({ text }: Formula, at: Position): string {
    return engineText(translate(text, at, this.#book, this.functions), at, this.#around);
  }
}

function needsBook(text: string): boolean {
  return tokenize(text).some(
    ({ type, value }) => told.has(type) || value === "#" || prefixed.has(value.toUpperCase()),
  );
}

function isOneCell({ top, left, bottom, right }: Area): boolean {
  return top === bottom && left === right;
}

function extent({ sheets }: WorkbookModel): { height: number; width: number } {
  let [height, width] = [1, 1];
  for (const { cells } of sheets)
    for (const { row, column } of cells) {
      height = Math.max(height, row + 1);
      width = Math.max(width, column + 1);
    }
  return { height, width };
}

/**
 * Spill ranges as stored in the file: a formula may spill differently here, but a reference to its range keeps the
 * meaning it had in the file.
 */
function spills({ sheets }: WorkbookModel): Surroundings["spilledFrom"] {
  const areas = new Map<string, Area>();
  for (const [sheet, { cells }] of sheets.entries())
    for (const { row, column, formula } of cells)
      if (formula?.area) areas.set(positionKey({ sheet, row, column }), formula.area);
  return (sheet, row, column) => areas.get(positionKey({ sheet, row, column }));
}
