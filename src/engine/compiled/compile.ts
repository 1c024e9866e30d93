import type { Position } from "../../cells/place.js";
import { callFunction } from "../ours/call-function.js";
import type { CellFunctions } from "../ours/cell-functions.js";
import { InlineArray } from "../native/argument.js";
import type { NativeFunction } from "../native/define.js";
import { natives } from "../native/natives.js";
import { compared } from "../native/operators.js";
import { inUse, type Surroundings } from "../references/surroundings.js";
import type { Translation } from "../references/translation.js";
import type { WrittenReference } from "../references/written-reference.js";
import {
  formulaErrors,
  finite,
  Values,
  type FormulaValue,
  type Scalar,
  type PositionedArea,
} from "../values.js";
import type { Cells } from "./cells.js";
import { type FormulaExpression, expressionOf } from "./expression.js";
import { pickFrom } from "./pick.js";
import { placeOf, places } from "./place.js";
import { alike, lone, type CompiledStep, type Steps } from "./steps.js";

/** A formula ready to be calculated in any cell that it was copied to. */
export type Compiled = CompiledStep;

const nativeFunctions: ReadonlyMap<string, NativeFunction> = new Map(natives.map((fn) => [fn.name, fn]));
const arithmetic = new Map(
  Object.entries({
    "+": "PLUS",
    "-": "MINUS",
    "*": "MULTIPLY",
    "/": "DIVIDED",
    "^": "POWER",
    "&": "CONCATENATE",
  }),
);
const comparisons: ReadonlySet<string> = new Set(["=", "<>", "<", ">", "<=", ">="]);
/** Names of functions that stand for operators; no formula may call them. */
const operatorNames: ReadonlySet<string> = new Set([
  "PLUS",
  "MINUS",
  "MULTIPLY",
  "DIVIDED",
  "COMPARE",
  "CUBE",
]);

/**
 * Compiles a formula once for all cells that it was copied to.
 *
 * @param base the cell for which the formula is written; references without "$" are relative to it
 * @returns undefined for a formula with any part that only the interpreter can calculate
 */
export function compiled(
  { tokens, references }: Translation,
  base: Position,
  functions: CellFunctions,
  around: Pick<Surroundings, "height" | "width">,
): Compiled | undefined {
  const expression = expressionOf(tokens);
  const last = expression && stepsOf(expression)?.plain;
  return last && ((cells, at) => lone(last(cells, at)));

  function stepsOf(part: FormulaExpression): Steps | undefined {
    switch (part.is) {
      case "value":
        return alike(() => part.value);
      case "cells": {
        const reference = references[part.reference];
        return reference && reading(part.whole ? reference : inUse(reference, around), base);
      }
      case "operation":
        return operation(part.operator, part.operands.map(stepsOf));
      case "call":
        return call(part.name, part.args);
    }
  }

  function call(name: string, args: readonly (FormulaExpression | undefined)[]): Steps | undefined {
    const given = args.map((arg) => (arg ? stepsOf(arg) : nothing));
    if (!areKnown(given)) return undefined;
    const own = functions.find(name);
    if (own) {
      if (given.length < own.fewest || given.length > own.most) return undefined;
      const plain = given.map((step) => step.plain);
      return alike((cells, at) => {
        const outcome = callFunction(
          own,
          plain.map((step) => lone(step(cells, at))),
        );
        if (outcome instanceof Promise) throw new Error("a function did not answer at once");
        return passedOn(outcome);
      });
    }
    if (name === "INDEX") return pickFrom(given);
    if (places.has(name)) return placeOf(name, given);
    const native = operatorNames.has(name) ? undefined : nativeFunctions.get(name);
    if (!native || given.length < native.fewest || given.length > native.most) return undefined;
    const whole = given.map((step) => step.whole);
    return alike((cells, at) => passedOn(native.calculate(...whole.map((step) => step(cells, at)))));
  }
}

const nothing = alike(() => null);

const areKnown = (steps: (Steps | undefined)[]): steps is Steps[] => !steps.includes(undefined);

function operation(operator: string, operands: readonly (Steps | undefined)[]): Steps | undefined {
  const [left, right] = operands;
  if (!left || !right) return undefined;
  const [a, b] = [left.plain, right.plain];
  if (comparisons.has(operator))
    return alike((cells, at) => passedOn(compared(operator, a(cells, at), b(cells, at))));
  const calculate = nativeFunctions.get(arithmetic.get(operator) ?? "")?.calculate;
  return calculate && alike((cells, at) => passedOn(calculate(a(cells, at), b(cells, at))));
}

function reading(reference: WrittenReference, base: Position): Steps {
  const { sheet, topFixed, leftFixed, bottomFixed, rightFixed } = reference;
  const top = topFixed ? reference.top : reference.top - base.row;
  const left = leftFixed ? reference.left : reference.left - base.column;
  const bottom = bottomFixed ? reference.bottom : reference.bottom - base.row;
  const right = rightFixed ? reference.right : reference.right - base.column;
  const area = (at: Position): PositionedArea => ({
    sheet,
    top: topFixed ? top : at.row + top,
    left: leftFixed ? left : at.column + left,
    bottom: bottomFixed ? bottom : at.row + bottom,
    right: rightFixed ? right : at.column + right,
  });
  if (top === bottom && left === right && topFixed === bottomFixed && leftFixed === rightFixed) {
    const plain = (cells: Cells, at: Position): Scalar =>
      cells.at(sheet, topFixed ? top : at.row + top, leftFixed ? left : at.column + left);
    return { plain, area, whole: (cells, at) => new Values([[plain(cells, at)]]) };
  }
  const whole = (cells: Cells, at: Position): Values => cells.range(area(at));
  return { whole, area, plain: (cells, at) => lone(whole(cells, at)) };
}

/**
 * Result of a function as input to the next: arrays are no longer tied to cells, and numbers are those that a cell can
 * hold.
 */
function passedOn(value: FormulaValue): FormulaValue {
  if (!(value instanceof Values)) return settled(value);
  if (value.height === 0 || value.width === 0) return formulaErrors.calculation;
  return new InlineArray(
    value.rows.map((row) => Array.from({ length: value.width }, (_, column) => settled(row[column] ?? null))),
  );
}

const settled = (value: Scalar): Scalar => (typeof value === "number" ? finite(value) : value);
