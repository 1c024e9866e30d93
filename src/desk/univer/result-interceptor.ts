import {
  type ArrayValueObject,
  type BaseAstNode,
  type BaseReferenceObject,
  DEFAULT_TOKEN_TYPE_ROOT,
  IFormulaRuntimeService,
  Interpreter,
} from "@univerjs/engine-formula";
import type { CellFunctions } from "../../engine/ours/cell-functions.js";
import type { UniverCell } from "../../engine/univer/univer-functions.js";
import { argumentFromUniver, fromUniver, toUniver } from "../../engine/univer/univer-values.js";
import type { FormulaValue } from "../../engine/values.js";
import type { UniverSheet } from "./univer.js";

/** A formula that has just been calculated; its cell does not show the result yet. */
export interface CalculatedFormula {
  /** Names of instruments that it did not find. */
  readonly missing: readonly string[];
  readonly value: () => FormulaValue;
  /** Values of the cells that it reads; undefined if not all of them are known. */
  readonly inputs: () => readonly FormulaValue[] | undefined;
}

/** Intercepts results of formulas. */
export interface ResultInterceptor {
  /** Whether it may replace any result. */
  readonly isNeeded: () => boolean;
  /** @returns the result to use for the cell and its dependents instead; undefined for the calculated value */
  readonly intercept: (cell: UniverCell, calculated: CalculatedFormula) => FormulaValue | undefined;
}

/**
 * Intercepts the result of each formula before it is written to its cell. Whole formulas are intercepted, not the calls
 * in them, so what IFERROR or ROUND makes of a missing instrument is covered too.
 */
export function interceptResults(
  { univer }: UniverSheet,
  functions: CellFunctions,
  interceptor: ResultInterceptor,
): void {
  const injector = univer.__getInjector();
  const interpreter = injector.get(Interpreter);
  const runtime = injector.get<IFormulaRuntimeService>(IFormulaRuntimeService);
  const execute = interpreter.execute.bind(interpreter);
  interpreter.execute = (given) => {
    const { node } = given;
    // Parts of formulas are executed in the same way, before the whole and within it.
    if (node?.getToken() !== DEFAULT_TOKEN_TYPE_ROOT || !interceptor.isNeeded()) return execute(given);
    functions.instrumentsInVain();
    const value = execute(given);
    const { currentUnitId: unit, currentSubUnitId: sheet, currentRow: row, currentColumn: column } = runtime;
    const instead = interceptor.intercept(
      { unit, sheet, row, column },
      {
        missing: functions.instrumentsInVain(),
        value: () => fromUniver(value),
        inputs: () => inputsOf(node),
      },
    );
    return instead === undefined ? value : toUniver(instead);
  };
}

/** Univer creates one array per range for all formulas of a calculation. */
const read = new WeakMap<ArrayValueObject, FormulaValue>();

function inputsOf(root: BaseAstNode): readonly FormulaValue[] | undefined {
  const inputs: FormulaValue[] = [];
  const isComplete = (node: BaseAstNode, repeats: boolean): boolean => {
    const value = node.getValue();
    // A node that is executed repeatedly holds only the last reference that it computed.
    if (value === null || value === undefined || (repeats && node.isAddress())) return false;
    if (value.isReferenceObject()) inputs.push(contentOf(value as BaseReferenceObject));
    return node.getChildren().every((child) => isComplete(child, repeats || isLambda(child)));
  };
  return isComplete(root, false) ? inputs : undefined;
}

const isLambda = (node: BaseAstNode): boolean => node.getToken().toUpperCase() === "LAMBDA";

function contentOf(reference: BaseReferenceObject): FormulaValue {
  const cells = reference.toArrayValueObject();
  let content = read.get(cells);
  if (content === undefined) read.set(cells, (content = argumentFromUniver(cells)));
  return content;
}
