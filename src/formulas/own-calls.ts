import { tokenTypes } from "@borgar/fx/xlsx";
import { spellings, SpelledFunctions, type Spellings } from "./spelling.js";
import { isOperator, isSolid, pieces, type Piece } from "./tokens.js";

/** One of our functions, as far as formulas matter. */
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

/** An argument as the formula writes it: its pieces without white space; none where it is left empty. */
export type ArgumentPieces = readonly Piece[];

/** A call of one of our functions in a formula. */
export interface OwnCall {
  readonly function: OwnFunction;
  readonly args: readonly ArgumentPieces[];
  /** Places of the function's name and of its closing bracket among the formula's solid pieces. */
  readonly first: number;
  readonly last: number;
}

/** A formula taken apart. */
export interface ReadFormula {
  /** Without white space. */
  readonly solid: readonly Piece[];
  /** Calls within calls among them, each after those that it contains. */
  readonly calls: readonly OwnCall[];
}

interface Open {
  readonly function: OwnFunction | undefined;
  readonly first: number;
  /** Where each argument begins. */
  readonly starts: number[];
}

/** Finds the calls of our functions, whatever way they are spelled and whatever workbook they are said to be in. */
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
