import { tokenTypes } from "@borgar/fx/xlsx";
import type { ArgumentTokens } from "../../formulas/own-calls.js";
import { literalText } from "../../formulas/text-literal.js";
import { isOperator, type FormulaToken } from "../../formulas/tokens.js";
import type { Area } from "../../cells/area.js";

/** An argument that is a literal. */
export function constantOf(
  argument: ArgumentTokens,
): { readonly value: string | number | undefined } | undefined {
  const isNegative = argument.length === 2 && isOperator(argument[0], "-");
  const only = argument.length === 1 ? argument[0] : isNegative ? argument[1] : undefined;
  if (argument.length === 0) return { value: undefined };
  if (only?.type === tokenTypes.NUMBER) return { value: (isNegative ? -1 : 1) * Number(only.value) };
  if (only?.type === tokenTypes.STRING && !isNegative) return { value: literalText(only.value) };
  return undefined;
}

/** A function may be qualified with another workbook; that belongs to the call. */
export function qualifiedFrom(solid: readonly FormulaToken[], first: number): number {
  const context = solid[first - 2]?.type;
  const isQualified =
    isOperator(solid[first - 1], "!") &&
    (context === tokenTypes.CONTEXT || context === tokenTypes.CONTEXT_QUOTE);
  return isQualified ? first - 2 : first;
}

export const isOneCell = ({ top, left, bottom, right }: Area): boolean => top === bottom && left === right;
