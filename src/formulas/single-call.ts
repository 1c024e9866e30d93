import { tokenTypes } from "@borgar/fx/xlsx";
import { readFormula, type Argument, type OwnFunctions } from "./own-calls.js";
import { literalText } from "./text-literal.js";
import { isOperator, type Piece } from "./tokens.js";

/** What one argument of a call is: cells, or a value written down; undefined where it is left out. */
export type ArgumentSource =
  { readonly reference: string } | { readonly value: number | string | boolean } | undefined;

/** A formula that is nothing but a call of one of our functions. */
export interface SingleCall {
  /** Without the namespace. */
  readonly name: string;
  readonly args: readonly ArgumentSource[];
}

const cells = new Set<string>([
  tokenTypes.REF_RANGE,
  tokenTypes.REF_BEAM,
  tokenTypes.REF_TERNARY,
  tokenTypes.REF_NAMED,
  tokenTypes.REF_STRUCT,
]);
const before = new Set<string>([tokenTypes.FX_PREFIX, tokenTypes.CONTEXT, tokenTypes.CONTEXT_QUOTE]);

/** Reads such a formula; undefined if there is anything else in it. */
export function singleCall(formula: string, functions: OwnFunctions): SingleCall | undefined {
  const { solid, calls } = readFormula(formula, functions);
  const call = calls.at(-1);
  if (!call || call.last !== solid.length - 1) return undefined;
  const isPrefix = (piece: Piece): boolean => before.has(piece.type) || isOperator(piece, "!", "@");
  if (!solid.slice(0, call.first).every(isPrefix)) return undefined;
  const args = call.args.map(sourceOf);
  return args.includes("other")
    ? undefined
    : { name: call.function.id, args: args.filter((argument) => argument !== "other") };
}

function sourceOf(argument: Argument): ArgumentSource | "other" {
  const [piece, percent] = argument;
  if (!piece) return undefined;
  if (argument.length === 2 && piece.type === tokenTypes.NUMBER && isOperator(percent, "%"))
    return { value: Number(piece.value) / 100 };
  if (argument.length > 1) return "other";
  if (cells.has(piece.type)) return { reference: piece.value };
  if (piece.type === tokenTypes.STRING) return { value: literalText(piece.value) };
  if (piece.type === tokenTypes.NUMBER) return { value: Number(piece.value) };
  if (piece.type === tokenTypes.BOOLEAN) return { value: piece.value.toUpperCase() === "TRUE" };
  return "other";
}
