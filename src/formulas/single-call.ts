import { tokenTypes } from "@borgar/fx/xlsx";
import {
  parseFormula,
  type ArgumentTokens,
  type OwnCall,
  type OwnFunctions,
  type ParsedFormula,
} from "./own-calls.js";
import { literalText } from "./text-literal.js";
import { isOperator, type FormulaToken } from "./tokens.js";
import { argumentReference } from "./argument-reference.js";

/** Source of one argument of a call: cells or a literal value; undefined if it is omitted. */
export type ArgumentSource =
  { readonly reference: string } | { readonly value: number | string | boolean } | undefined;

/** A formula that consists of a single call of one of our functions. */
export interface SingleCall {
  /** Without the namespace. */
  readonly name: string;
  readonly args: readonly ArgumentSource[];
}

const before = new Set<string>([tokenTypes.FX_PREFIX, tokenTypes.CONTEXT, tokenTypes.CONTEXT_QUOTE]);

/** Parses such a formula; undefined if it contains anything else. */
export function singleCall(formula: string, functions: OwnFunctions): SingleCall | undefined {
  const read = parseFormula(formula, functions);
  const call = read.calls.at(-1);
  if (!call || !isWhole(call, read)) return undefined;
  const args = call.args.map(sourceOf);
  return args.includes("other")
    ? undefined
    : { name: call.function.id, args: args.filter((argument) => argument !== "other") };
}

/** The only call of ours in a formula. */
export interface OnlyCall extends SingleCall {
  /**
   * The formula contains nothing else. If it does, that may change the result or leave it alone, as IF(A1="","",…)
   * does.
   */
  readonly isWhole: boolean;
}

/** Reads a formula with one call in it; undefined if there are more, or if an argument is computed. */
export function onlyCall(formula: string, functions: OwnFunctions): OnlyCall | undefined {
  const [call, another] = foundCalls(formula, functions);
  if (!call?.args || another) return undefined;
  const { name, isWhole } = call;
  // With a single call, no argument is the result of another call.
  const args = call.args.map((argument) => (argument && "call" in argument ? undefined : argument));
  return { name, isWhole, args };
}

/** Whether a formula consists of one call and what may precede its name. */
function isWhole({ first, last }: OwnCall, { tokens }: ParsedFormula): boolean {
  const isPrefix = (token: FormulaToken): boolean => before.has(token.type) || isOperator(token, "!", "@");
  return last === tokens.length - 1 && tokens.slice(0, first).every(isPrefix);
}

/** A call of one of our functions somewhere in a formula. */
export interface FoundCall {
  /** Without the namespace. */
  readonly name: string;
  /**
   * An argument may be the result of another call, given by its index among all calls found. Undefined if an argument
   * is computed in a way that only a spreadsheet can follow.
   */
  readonly args: readonly (ArgumentSource | { readonly call: number })[] | undefined;
  /** The formula contains nothing else. */
  readonly isWhole: boolean;
}

/** All calls of our functions in a formula; each comes after the calls inside it. */
export function foundCalls(formula: string, functions: OwnFunctions): FoundCall[] {
  const read = parseFormula(formula, functions);
  const inner = (argument: ArgumentTokens): number =>
    read.calls.findIndex(
      ({ first, last }) => read.tokens[first] === argument[0] && read.tokens[last] === argument.at(-1),
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

function sourceOf(argument: ArgumentTokens): ArgumentSource | "other" {
  const [token, percent] = argument;
  if (!token) return undefined;
  if (argument.length === 2 && token.type === tokenTypes.NUMBER && isOperator(percent, "%"))
    return { value: Number(token.value) / 100 };
  const reference = argumentReference(argument);
  if (reference !== undefined) return { reference };
  if (argument.length > 1) return "other";
  if (token.type === tokenTypes.STRING) return { value: literalText(token.value) };
  if (token.type === tokenTypes.NUMBER) return { value: Number(token.value) };
  if (token.type === tokenTypes.BOOLEAN) return { value: token.value.toUpperCase() === "TRUE" };
  return "other";
}
