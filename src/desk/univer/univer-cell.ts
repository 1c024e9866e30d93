import { CellValueType, type ICellData, type Nullable } from "@univerjs/core";
import { ErrorType } from "@univerjs/engine-formula";
import type { CellValue } from "../../workbook/model.js";

const errors = new Set<string>(Object.values(ErrorType));

/**
 * The value of a Univer cell, as a workbook stores it.
 *
 * @param isResult whether a neighbour's formula fills the cell
 */
export function cellValue(cell: Nullable<ICellData>, isResult = false): CellValue {
  // Text with formatting inside it is a rich-text document.
  const rich = cell?.p?.body?.dataStream.replace(/\r\n$/, "").replaceAll("\r", "\n");
  const value = rich ?? cell?.v;
  if (value === undefined || value === null) return null;
  if (cell?.t === CellValueType.BOOLEAN)
    return value === true || value === 1 || /^(1|true)$/i.test(String(value));
  if (typeof value !== "string") return value;
  if (cell?.t === CellValueType.NUMBER && value.trim() !== "" && Number.isFinite(Number(value)))
    return Number(value);
  if (cell?.t !== CellValueType.FORCE_STRING && errors.has(value)) return { error: value };
  // An empty text without a formula is left behind when a cell is cleared.
  return value === "" && !cell?.f && !cell?.si && !isResult ? null : value;
}
