import { toCol } from "@borgar/fx";
import { Book } from "../../src/engine/book.js";
import { CellFunctions } from "../../src/engine/cell-functions.js";
import type { FunctionMetadata } from "../../src/engine/function-metadata.js";
import { catalogue } from "../../src/functions/catalogue.js";
import { NAMESPACE } from "../../src/functions/function-spec.js";
import { metadata } from "../../src/functions/metadata.js";
import { ownFunctions } from "../../src/formulas/own-calls.js";
import { LiveFormulas } from "../../src/handover/live-call.js";
import type { CellValue } from "../../src/workbook/model.js";
import { instruments } from "../support/instruments.js";

export type Raw = number | string | undefined;

/** Live formulas for a workbook with one sheet "S" and these cells. */
export function liveFormulas(cells: readonly (readonly Raw[])[] = []): LiveFormulas {
  return new LiveFormulas({
    book: new Book({ sheets: [{ name: "S", cells: [] }], names: [], tables: [], iterates: false }),
    functions: new CellFunctions(metadata("") as FunctionMetadata, new Map(), NAMESPACE),
    own: ownFunctions(NAMESPACE, catalogue),
    instruments,
    valueAt: (_, row, column): CellValue => cells[row]?.[column] ?? null,
  });
}

/** "A7" */
export const cellAt = (row: number, column: number): string => `${toCol(column)}${row + 1}`;
