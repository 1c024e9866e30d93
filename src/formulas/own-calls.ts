import { tokenTypes } from "@borgar/fx/xlsx";
import { spellings, SpelledFunctions, type Spellings } from "./spelling.js";
import { isOperator, isSignificant, formulaTokens, type FormulaToken } from "./tokens.js";

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
export type ArgumentTokens = readonly FormulaToken[];

/** A call of one of our functions in a formula. */
export interface OwnCall {
  readonly function: OwnFunction;
  readonly args: readonly ArgumentTokens[];
  /** Indices of the function's name and its closing bracket among the formula's significant tokens. */
  readonly first: number;
  readonly last: number;
}

/** A formula with the calls found in it. */
export interface ParsedFormula {
  /** All tokens but white space. */
  readonly tokens: readonly FormulaToken[];
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
export function parseFormula(formula: string, functions: OwnFunctions): ParsedFormula {
  const tokens = formulaTokens(formula).filter(isSignificant);
  const calls: OwnCall[] = [];
  const open: Open[] = [];
  for (const [i, token] of tokens.entries()) {
    if (isOperator(token, "(", "{")) {
      const before = tokens[i - 1];
      const called = token.value === "(" && before?.type === tokenTypes.FUNCTION ? before.value : undefined;
      const fn = called === undefined ? undefined : functions.find(called);
      open.push({ function: fn, first: i - 1, starts: [i + 1] });
    } else if (isOperator(token, ",")) open.at(-1)?.starts.push(i + 1);
    else if (isOperator(token, ")", "}")) {
      const closed = open.pop();
      if (closed?.function)
        calls.push({
          function: closed.function,
          args: argumentsOf(tokens, closed.starts, i),
          first: closed.first,
          last: i,
        });
    }
  }
  return { tokens, calls };
}

function argumentsOf(
  tokens: readonly FormulaToken[],
  starts: readonly number[],
  end: number,
): ArgumentTokens[] {
  const args = starts.map((start, n) => tokens.slice(start, (starts[n + 1] ?? end + 1) - 1));
  return args.length === 1 && args[0]?.length === 0 ? [] : args;
}
