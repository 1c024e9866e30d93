import { CellValueType, type ICellData } from "@univerjs/core";
import {
  ArrayValueObject,
  type BaseReferenceObject,
  type BaseValueObject,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  type FunctionVariantType,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";
import { InlineArray } from "../native/argument.js";
import { FormulaError, formulaErrors, finite, Values, type FormulaValue, type Scalar } from "../values.js";

/**
 * A value as Univer stores it in a cell; undefined for a blank. "Force string" keeps it from reading text as a number.
 */
export function toUniverCell(value: Scalar): ICellData | undefined {
  if (value === null) return undefined;
  if (typeof value === "number") return { v: value, t: CellValueType.NUMBER };
  // Without a formula, Univer would take an empty text for a blank.
  if (value === "") return { v: value, t: CellValueType.FORCE_STRING, f: '=""' };
  if (typeof value === "string") return { v: value, t: CellValueType.FORCE_STRING };
  if (typeof value === "boolean") return { v: value, t: CellValueType.BOOLEAN };
  return { v: value.error, t: CellValueType.STRING };
}

/** A value as Univer's functions take it. An error keeps its message. */
export function toUniver(value: FormulaValue): BaseValueObject {
  if (!(value instanceof Values)) return scalarToUniver(value);
  return ArrayValueObject.create({
    calculateValueList: value.rows.map((row) => row.map(scalarToUniver)),
    rowCount: value.height,
    columnCount: value.width,
    unitId: "",
    sheetId: "",
    // Without a place in a sheet, Univer's index of cell values is not used.
    row: -1,
    column: -1,
  });
}

const univerErrors = new Map<string, ErrorType>(Object.values(ErrorType).map((code) => [code, code]));

function scalarToUniver(value: Scalar): BaseValueObject {
  if (typeof value === "number") return NumberValueObject.create(value);
  if (typeof value === "string") return StringValueObject.create(value);
  if (typeof value === "boolean") return BooleanValueObject.create(value);
  if (value === null) return NullValueObject.create();
  return ErrorValueObject.create(univerErrors.get(value.error) ?? ErrorType.VALUE, value.message);
}

/** A result of Univer. @throws Error for a function that returned a promise: nothing waits here */
export function fromUniver(value: FunctionVariantType): FormulaValue {
  if (value.isAsyncObject()) throw new Error("a function did not answer at once");
  const given = value.isReferenceObject() ? (value as BaseReferenceObject).toArrayValueObject(false) : value;
  return valueFromUniver(given as BaseValueObject);
}

/** A value or an array of values; an array of one value is that value. */
export function valueFromUniver(value: BaseValueObject): FormulaValue {
  const read = argumentFromUniver(value);
  return read instanceof Values && read.height === 1 && read.width === 1 ? read.at(0, 0) : read;
}

/** A value or an array of values; a single cell is also an array. */
export function argumentFromUniver(value: BaseValueObject): FormulaValue {
  if (!(value instanceof ArrayValueObject)) return scalarFromUniver(value);
  const rows: Scalar[][] = [];
  for (let row = 0; row < value.getRowCount(); row++) {
    const line: Scalar[] = [];
    for (let column = 0; column < value.getColumnCount(); column++)
      line.push(scalarFromUniver(value.get(row, column)));
    rows.push(line);
  }
  if (rows.length === 0 || rows[0]?.length === 0) return formulaErrors.calculation;
  return value.getCurrentRow() < 0 ? new InlineArray(rows) : new Values(rows);
}

function scalarFromUniver(value: ReturnType<ArrayValueObject["get"]>): Scalar {
  if (!value || value.isNull()) return null;
  if (value instanceof ErrorValueObject)
    return new FormulaError(value.getErrorType(), value.getErrorContent());
  const raw: unknown = value.getValue();
  if (typeof raw === "number") return finite(raw);
  return typeof raw === "string" || typeof raw === "boolean" ? raw : formulaErrors.value;
}
