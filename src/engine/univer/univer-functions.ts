import { BooleanNumber } from "@univerjs/core";
import {
  AsyncObject,
  BaseFunction,
  type BaseValueObject,
  FunctionType,
  type IFunctionInfo,
} from "@univerjs/engine-formula";
import { callFunction } from "../ours/call-function.js";
import type { CellFunction, CellFunctions } from "../ours/cell-functions.js";
import type { DeclaredParameter } from "../ours/function-metadata.js";
import { toUniver, valueFromUniver } from "./univer-values.js";
import { FormulaError, Values, type FormulaValue } from "../values.js";

/** A cell as Univer names it. */
export interface UniverCell {
  readonly unit: string;
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** What Univer needs to know our functions. */
export interface UniverFunctions {
  /** For the "function" option of its formula engine. */
  readonly classes: (readonly [new (name: string) => BaseFunction, string])[];
  /** For the "description" option of its formula plugin: what completion and argument hints show. */
  readonly descriptions: IFunctionInfo[];
}

/**
 * Our functions as Univer's.
 *
 * @param told called for every call, with the cell and the message of its error, "" for no error. Univer itself keeps
 *   no messages.
 */
export function univerFunctions(
  functions: CellFunctions,
  told: (cell: UniverCell, message: string) => void = () => undefined,
): UniverFunctions {
  return {
    classes: functions.all.map((fn) => [univerClass(fn, told), fn.name]),
    descriptions: functions.all.map(description),
  };
}

function univerClass(
  fn: CellFunction,
  told: (cell: UniverCell, message: string) => void,
): new (name: string) => BaseFunction {
  return class extends BaseFunction {
    override minParams = fn.fewest;
    override maxParams = fn.most;

    /** Univer asks before the call, when there is no promise to look at yet. */
    override isAsync(): boolean {
      return fn.implementation?.constructor.name === "AsyncFunction";
    }

    // Not calculateCustom: it turns blanks and omitted arguments into 0, and an exception there ends the program.
    override calculate(...args: BaseValueObject[]): ReturnType<BaseFunction["calculate"]> {
      const { row, column } = this;
      const cell = { unit: this.unitId ?? "", sheet: this.subUnitId ?? "", row, column };
      const finish = (outcome: FormulaValue): BaseValueObject => {
        tell(outcome, cell, told);
        return toUniver(outcome);
      };
      const outcome = callFunction(fn, args.map(valueFromUniver));
      return outcome instanceof Promise ? new AsyncObject(outcome.then(finish)) : finish(outcome);
    }
  };
}

function tell(
  outcome: FormulaValue,
  cell: UniverCell,
  told: (cell: UniverCell, message: string) => void,
): void {
  const rows = outcome instanceof Values ? outcome.rows : [[outcome]];
  for (const [down, values] of rows.entries()) {
    for (const [across, value] of values.entries()) {
      const message = value instanceof FormulaError ? value.message : "";
      told({ ...cell, row: cell.row + down, column: cell.column + across }, message);
    }
  }
}

function description(fn: CellFunction): IFunctionInfo {
  const text = fn.declared.description ?? "";
  return {
    functionName: fn.name,
    functionType: FunctionType.User,
    description: text,
    abstract: text,
    functionParameter: fn.declared.parameters.map((parameter: DeclaredParameter) => ({
      name: parameter.name,
      detail: parameter.description ?? "",
      example: parameter.dimensionality === "matrix" ? "A1:A10" : "A1",
      require: parameter.optional ? BooleanNumber.FALSE : BooleanNumber.TRUE,
      repeat: parameter.repeating ? BooleanNumber.TRUE : BooleanNumber.FALSE,
    })),
  };
}
