import { type Token, tokenTypes } from "@borgar/fx/xlsx";
import { literalText } from "../../formulas/text-literal.js";
import { isOperator, isSignificant } from "../../formulas/tokens.js";
import { countCells } from "../references/surroundings.js";
import { errorCodes, type Scalar, FormulaError } from "../values.js";

/** Syntax tree of a formula. */
export type FormulaExpression =
  | { readonly is: "value"; readonly value: Scalar }
  /** @property whole counted as it is written, whole columns and rows down to their ends */
  | { readonly is: "cells"; readonly reference: number; readonly whole: boolean }
  | { readonly is: "operation"; readonly operator: string; readonly operands: readonly FormulaExpression[] }
  | { readonly is: "call"; readonly name: string; readonly args: readonly (FormulaExpression | undefined)[] };

/** Precedence of the operators; equal ones associate to the left. */
const precedence = new Map(
  [["=", "<>", "<", ">", "<=", ">="], ["&"], ["+", "-"], ["*", "/"], ["^"]].flatMap((line, strength) =>
    line.map((operator) => [operator, strength] as const),
  ),
);

/** Thrown to stop parsing a formula with anything unknown in it. */
class Unknown extends Error {}

/**
 * Parses a formula that consists of values, references, operators and calls.
 *
 * @returns undefined if there is anything else in it
 */
export function expressionOf(tokens: readonly Token[]): FormulaExpression | undefined {
  try {
    return new Reader(tokens).read();
  } catch (error) {
    if (error instanceof Unknown) return undefined;
    throw error;
  }
}

class Reader {
  readonly #tokens: readonly Token[];
  #place = 0;

  constructor(tokens: readonly Token[]) {
    this.#tokens = tokens.filter(isSignificant);
  }

  read(): FormulaExpression {
    const all = this.#operation(0);
    if (this.#place < this.#tokens.length) throw new Unknown();
    return all;
  }

  #operation(minPrecedence: number): FormulaExpression {
    let left = this.#signed();
    for (;;) {
      const token = this.#tokens[this.#place];
      const strength = token?.type === tokenTypes.OPERATOR ? precedence.get(token.value) : undefined;
      if (token === undefined || strength === undefined || strength < minPrecedence) return left;
      this.#place++;
      left = { is: "operation", operator: token.value, operands: [left, this.#operation(strength + 1)] };
    }
  }

  /** A sign binds more tightly than any binary operator. */
  #signed(): FormulaExpression {
    if (this.#takes("+")) return this.#signed();
    if (!this.#takes("-")) return this.#percent();
    const operand = this.#signed();
    // Only the interpreter knows what "-" makes of a text literal.
    if (operand.is === "value" && typeof operand.value === "string") throw new Unknown();
    return { is: "operation", operator: "-", operands: [{ is: "value", value: 0 }, operand] };
  }

  #percent(): FormulaExpression {
    let operand = this.#operand();
    while (this.#takes("%"))
      operand = { is: "operation", operator: "/", operands: [operand, { is: "value", value: 100 }] };
    return operand;
  }

  #operand(): FormulaExpression {
    const token = this.#tokens[this.#place++];
    if (!token) throw new Unknown();
    switch (token.type) {
      case tokenTypes.NUMBER:
        return numberOf(token.value);
      case tokenTypes.STRING:
        return { is: "value", value: literalText(token.value) };
      case tokenTypes.BOOLEAN:
        return { is: "value", value: token.value.toUpperCase() === "TRUE" };
      case tokenTypes.ERROR:
        if (!errorCodes.has(token.value)) throw new Unknown();
        return { is: "value", value: new FormulaError(token.value) };
      case tokenTypes.REF_RANGE: {
        const caller = this.#tokens[this.#place - 3];
        const whole = isOperator(this.#tokens[this.#place - 2], "(") && countCells.has(caller?.value ?? "");
        return { is: "cells", reference: Number(token.value), whole };
      }
      case tokenTypes.FUNCTION:
        return { is: "call", name: token.value, args: this.#args() };
      case tokenTypes.OPERATOR:
        if (token.value !== "(") throw new Unknown();
        break;
      default:
        throw new Unknown();
    }
    const inner = this.#operation(0);
    if (!this.#takes(")")) throw new Unknown();
    return inner;
  }

  #args(): (FormulaExpression | undefined)[] {
    if (!this.#takes("(")) throw new Unknown();
    if (this.#takes(")")) return [];
    const args: (FormulaExpression | undefined)[] = [];
    for (;;) {
      const next = this.#tokens[this.#place];
      args.push(isOperator(next, ",", ")") ? undefined : this.#operation(0));
      if (this.#takes(")")) return args;
      if (!this.#takes(",")) throw new Unknown();
    }
  }

  #takes(operator: string): boolean {
    const isNext = isOperator(this.#tokens[this.#place], operator);
    if (isNext) this.#place++;
    return isNext;
  }
}

/** A number as written. The interpreter gets one with an exponent as a product, whose last digit may differ. */
function numberOf(text: string): FormulaExpression {
  const short = String(Number(text));
  if (!/e/i.test(text) && !short.includes("e")) return { is: "value", value: Number(text) + 0 };
  const [mantissa = "0", exponent = "0"] = (/e/i.test(text) ? text.toLowerCase() : short).split("e");
  const ten: FormulaExpression = { is: "value", value: 10 };
  const power: FormulaExpression = {
    is: "operation",
    operator: "^",
    operands: [ten, { is: "value", value: Number(exponent) }],
  };
  return { is: "operation", operator: "*", operands: [{ is: "value", value: Number(mantissa) }, power] };
}
