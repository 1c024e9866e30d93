import type { Area } from "../../src/cells/area.js";
import { fromCol, parseA1Range, toCol } from "@borgar/fx";
import { recalculate } from "../../src/engine/recalculate.js";
import type { Recalculation } from "../../src/engine/recalculation.js";
import type {
  Cell,
  CellValue,
  DefinedName,
  Formula,
  Table,
  WorkbookModel,
} from "../../src/workbook/model.js";
import { fakeFunctions } from "./fixture.js";

/** A cell in a test: a value, text that starts with "=" for a plain formula, or one of the makers below. */
export type Sketch =
  CellValue | { readonly formula: Formula; readonly stored: CellValue } | { readonly text: string };

export type SheetSketch = Readonly<Record<string, Sketch>>;

export function plain(text: string, stored: CellValue = null): Sketch {
  return { formula: { text, kind: "plain" }, stored };
}

export function spill(text: string, area: string, stored: CellValue = null): Sketch {
  return { formula: { text, kind: "spill", area: areaOf(area) }, stored };
}

export function array(text: string, area: string, stored: CellValue = null): Sketch {
  return { formula: { text, kind: "array", area: areaOf(area) }, stored };
}

/** Text that looks like a formula. */
export function text(value: string): Sketch {
  return { text: value };
}

export function areaOf(range: string): Area {
  const { top, left, bottom, right } = parseA1Range(range) ?? {};
  if (typeof top !== "number" || typeof left !== "number") throw new Error(`No area: ${range}`);
  return { top, left, bottom: bottom ?? top, right: right ?? left };
}

export function workbook(
  sheets: Readonly<Record<string, SheetSketch>>,
  more: { names?: DefinedName[]; tables?: Table[]; iterates?: boolean; since1904?: boolean } = {},
): WorkbookModel {
  return {
    sheets: Object.entries(sheets).map(([name, sketches]) => ({
      name,
      cells: Object.entries(sketches)
        .map(([address, sketch]) => cellOf(address, sketch))
        .sort((a, b) => a.row - b.row || a.column - b.column),
    })),
    names: more.names ?? [],
    tables: more.tables ?? [],
    iterates: more.iterates ?? false,
    ...(more.since1904 === undefined ? {} : { since1904: more.since1904 }),
  };
}

function cellOf(address: string, sketch: Sketch): Cell {
  const [, letters = "", digits = ""] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  const place = { row: Number(digits) - 1, column: fromCol(letters) };
  if (typeof sketch === "string" && sketch.startsWith("=")) {
    return { ...place, value: null, formula: { text: sketch.slice(1), kind: "plain" } };
  }
  if (typeof sketch === "object" && sketch !== null && "formula" in sketch) {
    return { ...place, value: sketch.stored, formula: sketch.formula };
  }
  return {
    ...place,
    value: typeof sketch === "object" && sketch !== null && "text" in sketch ? sketch.text : sketch,
  };
}

/** A workbook after calculation. */
export interface After extends Recalculation {
  /** The value of a cell now, "A1" on the first sheet or "Other!A1". */
  at(address: string): CellValue | undefined;
  /** Addresses of all changed cells, in order. */
  readonly changed: readonly string[];
}

export function calculated(model: WorkbookModel): After {
  const result = recalculate(model, fakeFunctions());
  const values = new Map<string, CellValue>();
  for (const { name, cells } of model.sheets) {
    for (const { row, column, value } of cells) values.set(`${name}!${toCol(column)}${row + 1}`, value);
  }
  const addressOf = (change: { sheet: string; row: number; column: number }): string =>
    `${change.sheet}!${toCol(change.column)}${change.row + 1}`;
  for (const change of result.changes) values.set(addressOf(change), change.value);
  const first = model.sheets[0]?.name ?? "";
  return {
    ...result,
    at: (address) => values.get(address.includes("!") ? address : `${first}!${address}`),
    changed: result.changes.map((change) => addressOf(change).replace(`${first}!`, "")),
  };
}

/** What a formula comes to, if it is calculated here; otherwise why not. */
export interface Answer {
  readonly value: CellValue;
  readonly refusal: string | undefined;
}

/** Calculates a formula beside some cells of a sheet named Data, as an argument of IDENTITY. */
export function answer(formula: string, data: SheetSketch = {}): Answer {
  const after = calculated(
    workbook({
      Formulas: { A1: plain(formula) },
      Seeds: { B1: plain("GYLE.IDENTITY(Formulas!A1)") },
      Data: data,
    }),
  );
  return { value: after.at("Seeds!B1") ?? null, refusal: after.notes[0]?.message };
}
