import { toCol } from "@borgar/fx";
import { Book } from "../../src/engine/references/book.js";
import { CellFunctions } from "../../src/engine/ours/cell-functions.js";
import type { FunctionMetadata } from "../../src/engine/ours/function-metadata.js";
import { catalogue } from "../../src/functions/catalogue.js";
import { NAMESPACE } from "../../src/functions/contract/function-spec.js";
import { metadata } from "../../src/functions/metadata.js";
import { ownFunctions } from "../../src/formulas/own-calls.js";
import { CoefficientSheet } from "../../src/handover/live/coefficient-sheet.js";
import { LiveCalls, type BookAround } from "../../src/handover/live/live-call.js";
import type { CellValue } from "../../src/workbook/model.js";
import { instruments } from "../support/instruments.js";

export type Raw = number | string | undefined;

/** Live formulas for a workbook with one sheet "S" and these cells. */
export function liveFormulas(cells: readonly (readonly Raw[])[] = []): LiveCalls {
  const around: BookAround = {
    book: new Book({ sheets: [{ name: "S", cells: [] }], names: [], tables: [], iterates: false }),
    functions: new CellFunctions(metadata("") as FunctionMetadata, new Map(), NAMESPACE),
    own: ownFunctions(NAMESPACE, catalogue),
    instruments,
    valueAt: (_, row, column): CellValue => cells[row]?.[column] ?? null,
  };
  return new LiveCalls(around, new CoefficientSheet("Gylesheet", "2026-03-01"));
}

/** "A7" */
export const cellAt = (row: number, column: number): string => `${toCol(column)}${row + 1}`;
