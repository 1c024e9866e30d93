import { CellValueType, type ICellData, type Nullable } from "@univerjs/core";
import { ErrorType } from "@univerjs/engine-formula";
import type { CellValue } from "../../workbook/model.js";

const errors = new Set<string>(Object.values(ErrorType));

/**
 * The value of one of Univer's cells, as a workbook stores it.
 *
 * @param isResult whether a neighbour's formula gives it
 */
export function cellValue(cell: Nullable<ICellData>, isResult = false): CellValue {
  // Text with formats inside it is a small document.
  const rich = cell?.p?.body?.dataStream.replace(/\r\n$/, "").replaceAll("\r", "\n");
  const value = rich ?? cell?.v;
  if (value === undefined || value === null) return null;
  if (cell?.t === CellValueType.BOOLEAN)
    return value === true || value === 1 || /^(1|true)$/i.test(String(value));
  if (typeof value !== "string") return value;
  if (cell?.t === CellValueType.NUMBER && value.trim() !== "" && Number.isFinite(Number(value)))
    return Number(value);
  if (cell?.t !== CellValueType.FORCE_STRING && errors.has(value)) return { error: value };
  // An empty text without a formula is what clearing a cell leaves behind.
  return value === "" && !cell?.f && !cell?.si && !isResult ? null : value;
}
