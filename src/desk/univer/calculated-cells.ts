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

/** A formula that has just been calculated; its cell does not show it yet. */
export interface CalculatedFormula {
  /** Instruments that it looked for in vain. */
  readonly missing: readonly string[];
  readonly value: () => FormulaValue;
  /** What stands in the cells that it reads; undefined where nobody can tell which all of them are. */
  readonly inputs: () => readonly FormulaValue[] | undefined;
}

/** Looks at what formulas come to. */
export interface Overseer {
  /** Whether anything can come of it. */
  readonly isNeeded: () => boolean;
  /** @returns what the cell shows instead, and what others calculate with; undefined for the value itself */
  readonly see: (cell: UniverCell, calculated: CalculatedFormula) => FormulaValue | undefined;
}

/**
 * Has someone look at the value of each formula before it is put into its cell. It sees whole formulas, not calls in them: what
 * becomes of a missing instrument in IFERROR or ROUND is seen too.
 */
export function oversee({ univer }: UniverSheet, functions: CellFunctions, overseer: Overseer): void {
  const injector = univer.__getInjector();
  const interpreter = injector.get(Interpreter);
  const runtime = injector.get<IFormulaRuntimeService>(IFormulaRuntimeService);
  const execute = interpreter.execute.bind(interpreter);
  interpreter.execute = (given) => {
    const { node } = given;
    // Parts of formulas are executed by the same way, before the whole and within it.
    if (node?.getToken() !== DEFAULT_TOKEN_TYPE_ROOT || !overseer.isNeeded()) return execute(given);
    functions.instrumentsInVain();
    const value = execute(given);
    const { currentUnitId: unit, currentSubUnitId: sheet, currentRow: row, currentColumn: column } = runtime;
    const instead = overseer.see(
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

/** Univer makes one array of a range for all formulas of a calculation. */
const read = new WeakMap<ArrayValueObject, FormulaValue>();

function inputsOf(root: BaseAstNode): readonly FormulaValue[] | undefined {
  const inputs: FormulaValue[] = [];
  const isComplete = (node: BaseAstNode, repeats: boolean): boolean => {
    const value = node.getValue();
    // What is executed again and again holds only the last of the cells that it found.
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
