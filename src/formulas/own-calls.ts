import { tokenTypes } from "@borgar/fx/xlsx";
import { spellings, SpelledFunctions, type Spellings } from "./spelling.js";
import { isOperator, isSolid, pieces, type Piece } from "./tokens.js";

/** What formulas need to know about one of our functions. */
export interface OwnFunction extends Spellings {
  /** Without the namespace. */
  readonly id: string;
  readonly parameters: readonly { readonly namesInstrument: boolean }[];
}

export type OwnFunctions = SpelledFunctions<OwnFunction>;

/** @param list names without the namespace */
export function ownFunctions(
  namespace: string,
  list: readonly (Pick<OwnFunction, "parameters"> & { readonly name: string })[],
): OwnFunctions {
  return new SpelledFunctions(
    list.map(({ name, parameters }) => ({ id: name, parameters, ...spellings(namespace, name) })),
    namespace,
  );
}

/** Tokens of an argument without white space; empty if the argument is empty. */
export type ArgumentPieces = readonly Piece[];

/** A call of one of our functions in a formula. */
export interface OwnCall {
  readonly function: OwnFunction;
  readonly args: readonly ArgumentPieces[];
  /** Indices of the function's name and its closing bracket among the formula's significant tokens. */
  readonly first: number;
  readonly last: number;
}

/** A formula with the calls found in it. */
export interface ReadFormula {
  /** All tokens but white space. */
  readonly solid: readonly Piece[];
  /** Includes nested calls; each comes after the calls inside it. */
  readonly calls: readonly OwnCall[];
}

interface Open {
  readonly function: OwnFunction | undefined;
  readonly first: number;
  /** Index of the first token of each argument. */
  readonly starts: number[];
}

/** Finds the calls of our functions in any spelling, whatever workbook they are qualified with. */
export function readFormula(formula: string, functions: OwnFunctions): ReadFormula {
  const solid = pieces(formula).filter(isSolid);
  const calls: OwnCall[] = [];
  const open: Open[] = [];
  for (const [i, piece] of solid.entries()) {
    if (isOperator(piece, "(", "{")) {
      const before = solid[i - 1];
      const called = piece.value === "(" && before?.type === tokenTypes.FUNCTION ? before.value : undefined;
      const fn = called === undefined ? undefined : functions.find(called);
      open.push({ function: fn, first: i - 1, starts: [i + 1] });
    } else if (isOperator(piece, ",")) open.at(-1)?.starts.push(i + 1);
    else if (isOperator(piece, ")", "}")) {
      const closed = open.pop();
      if (closed?.function)
        calls.push({
          function: closed.function,
          args: argumentsOf(solid, closed.starts, i),
          first: closed.first,
          last: i,
        });
    }
  }
  return { solid, calls };
}

function argumentsOf(solid: readonly Piece[], starts: readonly number[], end: number): ArgumentPieces[] {
  const args = starts.map((start, n) => solid.slice(start, (starts[n + 1] ?? end + 1) - 1));
  return args.length === 1 && args[0]?.length === 0 ? [] : args;
}
