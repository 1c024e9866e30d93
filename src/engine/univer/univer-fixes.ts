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

/** Fixes ways in which Univer's formula engine reads cells and formulas that give wrong values, wherever it runs. */
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
 * Its index of cells by content knows no errors, answers a comparison with FALSE for anything not in it, and remembers
 * cells of earlier formulas. Nothing is added to it or looked up in it.
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

/** It takes a text that spells an error for an error, and the result "" for a blank. */
function readCells(): void {
  const cells = BaseReferenceObject.prototype;
  // To be called from the methods that replace them.
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

/** It cannot read "-" before a text or a logical value, and makes -0 a text. */
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
