import { tokenTypes } from "@borgar/fx/xlsx";
import {
  readFormula,
  type ArgumentPieces,
  type OwnCall,
  type OwnFunctions,
  type ReadFormula,
} from "./own-calls.js";
import { literalText } from "./text-literal.js";
import { isOperator, type Piece } from "./tokens.js";
import { argumentReference } from "./argument-reference.js";

/** What one argument of a call is: cells, or a value written down; undefined where it is left out. */
export type ArgumentSource =
  { readonly reference: string } | { readonly value: number | string | boolean } | undefined;

/** A formula that is nothing but a call of one of our functions. */
export interface SingleCall {
  /** Without the namespace. */
  readonly name: string;
  readonly args: readonly ArgumentSource[];
}

const before = new Set<string>([tokenTypes.FX_PREFIX, tokenTypes.CONTEXT, tokenTypes.CONTEXT_QUOTE]);

/** Reads such a formula; undefined if there is anything else in it. */
export function singleCall(formula: string, functions: OwnFunctions): SingleCall | undefined {
  const read = readFormula(formula, functions);
  const call = read.calls.at(-1);
  if (!call || !isWhole(call, read)) return undefined;
  const args = call.args.map(sourceOf);
  return args.includes("other")
    ? undefined
    : { name: call.function.id, args: args.filter((argument) => argument !== "other") };
}

/** The only call of ours in a formula. */
export interface OnlyCall extends SingleCall {
  /** There is nothing else in the formula. If there is, it may do something to the result: or nothing, as IF(A1="","",…) does. */
  readonly isWhole: boolean;
}

/** Reads a formula with one call in it; undefined if there are more, or if an argument is worked out. */
export function onlyCall(formula: string, functions: OwnFunctions): OnlyCall | undefined {
  const [call, another] = foundCalls(formula, functions);
  if (!call?.args || another) return undefined;
  const { name, isWhole } = call;
  // Where there is only one, no argument is the result of another.
  const args = call.args.map((argument) => (argument && "call" in argument ? undefined : argument));
  return { name, isWhole, args };
}

/** Whether there is nothing in a formula but one call, and what stands before its name. */
function isWhole({ first, last }: OwnCall, { solid }: ReadFormula): boolean {
  const isPrefix = (piece: Piece): boolean => before.has(piece.type) || isOperator(piece, "!", "@");
  return last === solid.length - 1 && solid.slice(0, first).every(isPrefix);
}

/** A call of one of our functions somewhere in a formula. */
export interface FoundCall {
  /** Without the namespace. */
  readonly name: string;
  /**
   * An argument may be the result of another call, by its place among all that were found. Undefined if one of them is worked
   * out in a way that only a spreadsheet can follow.
   */
  readonly args: readonly (ArgumentSource | { readonly call: number })[] | undefined;
  /** There is nothing else in the formula. */
  readonly isWhole: boolean;
}

/** All calls of our functions in a formula, each after those that it contains. */
export function foundCalls(formula: string, functions: OwnFunctions): FoundCall[] {
  const read = readFormula(formula, functions);
  const inner = (argument: ArgumentPieces): number =>
    read.calls.findIndex(
      ({ first, last }) => read.solid[first] === argument[0] && read.solid[last] === argument.at(-1),
    );
  return read.calls.map((call) => {
    const args = call.args.map((argument) => {
      const nested = argument.length > 1 ? inner(argument) : -1;
      return nested >= 0 ? { call: nested } : sourceOf(argument);
    });
    return {
      name: call.function.id,
      args: args.includes("other") ? undefined : args.filter((argument) => argument !== "other"),
      isWhole: isWhole(call, read),
    };
  });
}

function sourceOf(argument: ArgumentPieces): ArgumentSource | "other" {
  const [piece, percent] = argument;
  if (!piece) return undefined;
  if (argument.length === 2 && piece.type === tokenTypes.NUMBER && isOperator(percent, "%"))
    return { value: Number(piece.value) / 100 };
  const reference = argumentReference(argument);
  if (reference !== undefined) return { reference };
  if (argument.length > 1) return "other";
  if (piece.type === tokenTypes.STRING) return { value: literalText(piece.value) };
  if (piece.type === tokenTypes.NUMBER) return { value: Number(piece.value) };
  if (piece.type === tokenTypes.BOOLEAN) return { value: piece.value.toUpperCase() === "TRUE" };
  return "other";
}
