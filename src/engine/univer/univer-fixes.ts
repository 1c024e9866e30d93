import { CellValueType, type ICellData } from "@univerjs/core";
import {
  BaseReferenceObject,
  CELL_INVERTED_INDEX_CACHE,
  StringValueObject,
  ValueNodeFactory,
} from "@univerjs/engine-formula";
import { NotHere } from "../native/argument.js";
import { numberIn } from "../native/convert.js";
import { readConstantsAsWritten } from "./univer-constants.js";
import { readSignsInOrder } from "./univer-signs.js";
import { FormulaError } from "../values.js";

let isFixed = false;

/** Keeps Univer's formula engine, wherever it runs, from ways of reading cells and formulas that give wrong values. */
export function fixUniver(): void {
  if (isFixed) return;
  isFixed = true;
  forgetContents();
  readCells();
  readConstantsAsWritten();
  readSigns();
  readSignsInOrder();
}

/**
 * Its index of cells by their content knows no errors, answers a comparison with FALSE for whatever is not in it, and
 * remembers cells of earlier formulas. Nothing is put into it or taken from it.
 */
function forgetContents(): void {
  Object.assign(CELL_INVERTED_INDEX_CACHE, {
    set: () => undefined,
    setContinueBuildingCache: () => undefined,
    canUseCache: () => ({ rowsInCache: [], rowsNotInCache: [] }),
  });
}

type ReadCell = (this: BaseReferenceObject, row: number, column: number) => ICellData | null | undefined;
type ValueOf = (
  this: BaseReferenceObject,
  cell: ICellData,
) => ReturnType<BaseReferenceObject["getCellValueObject"]>;
type NodeOf = (
  this: ValueNodeFactory,
  ...given: Parameters<ValueNodeFactory["checkAndCreateNodeType"]>
) => ReturnType<ValueNodeFactory["checkAndCreateNodeType"]>;

/** It takes a text that spells an error for one, and the "" that a formula came to for a blank. */
function readCells(): void {
  const cells = BaseReferenceObject.prototype;
  // To be called from the methods that take their places.
  const { getCellData, getCellValueObject } = cells as unknown as {
    readonly getCellData: ReadCell;
    readonly getCellValueObject: ValueOf;
  };
  cells.getCellData = function (this: BaseReferenceObject, row: number, column: number) {
    const cell = getCellData.call(this, row, column);
    const isEmptyText = cell?.v === "" && cell.t !== undefined && cell.f === undefined;
    return isEmptyText ? { ...cell, f: '=""' } : cell;
  };
  cells.getCellValueObject = function (this: BaseReferenceObject, cell: ICellData) {
    return cell.t === CellValueType.FORCE_STRING
      ? StringValueObject.create(String(cell.v ?? ""))
      : getCellValueObject.call(this, cell);
  };
}

const signed = /^\s*-\s*(?:"((?:[^"]|"")*)"|(TRUE|FALSE|0))\s*$/i;

/** It cannot read "-" before a text or a truth, and makes a text of -0. */
function readSigns(): void {
  const values = ValueNodeFactory.prototype;
  const { checkAndCreateNodeType } = values as unknown as { readonly checkAndCreateNodeType: NodeOf };
  values.checkAndCreateNodeType = function (this: ValueNodeFactory, given) {
    const [isSigned, text, word] = typeof given === "string" ? (signed.exec(given) ?? []) : [];
    if (isSigned === undefined) return checkAndCreateNodeType.call(this, given);
    return this.create(literal(text?.replaceAll('""', '"'), word));
  };
}

function literal(text: string | undefined, word: string | undefined): string {
  if (text === undefined) return word?.toUpperCase() === "TRUE" ? "-1" : "0";
  try {
    const number = numberIn(text);
    return number instanceof FormulaError ? number.error : String(0 - number);
  } catch (error) {
    if (error instanceof NotHere) return "#VALUE!";
    throw error;
  }
}
