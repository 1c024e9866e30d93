import { tokenTypes } from "@borgar/fx/xlsx";
import { withoutPrefix } from "./declared-names.js";
import type { ArgumentTokens } from "./own-calls.js";
import { isOperator, type FormulaToken } from "./tokens.js";

const referring = new Set<string>([
  tokenTypes.REF_RANGE,
  tokenTypes.REF_BEAM,
  tokenTypes.REF_TERNARY,
  tokenTypes.REF_NAMED,
  tokenTypes.REF_STRUCT,
]);

/**
 * The reference that an argument is, if it is nothing else: "A1:B2", a name, a column of a table, or "D4#", which is what the formula
 * in D4 spills. Files write the last as ANCHORARRAY(D4).
 */
export function argumentReference(argument: ArgumentTokens): string | undefined {
  const [first, second, third, fourth] = argument;
  if (!first) return undefined;
  if (argument.length === 1) return refers(first) ? first.value : undefined;
  if (argument.length === 2 && isOperator(second, "#")) return refers(first) ? `${first.value}#` : undefined;
  const isAnchor = first.type === tokenTypes.FUNCTION && /^ANCHORARRAY$/i.test(withoutPrefix(first.value));
  return isAnchor &&
    argument.length === 4 &&
    isOperator(second, "(") &&
    third &&
    refers(third) &&
    isOperator(fourth, ")")
    ? `${third.value}#`
    : undefined;
}

const refers = ({ type }: FormulaToken): boolean => referring.has(type);
