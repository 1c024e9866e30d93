import { Refusal } from "../core/refusal.js";
import type { Argument, Plain, Row } from "./argument.js";
import { at, commonShape, type Shape } from "./broadcast.js";
import { cellContent, CellError, type CellContent, type Matrix, type Result } from "./cell-value.js";
import type { FunctionSpec, Words } from "./function-spec.js";
import { inRow, passedOn, sentence } from "./messages.js";

type Arguments = Readonly<Record<string, Argument<unknown>>>;
type Values<A extends Arguments> = { readonly [K in keyof A]: A[K] extends Argument<infer T> ? T : never };

/** Missing arguments are empty cells. */
const EMPTY: Matrix = [[undefined]];

const BLANK = "";

/** What happens inside a cell: a refusal becomes #VALUE! with its sentence, a bug of ours stays what it is. */
export function inCell<T>(calculate: () => T): T | CellError {
  try {
    return calculate();
  } catch (error) {
    if (error instanceof CellError) return error;
    if (error instanceof Refusal) return new CellError("#VALUE!", sentence(error.reason));
    throw error;
  }
}

/** The cells of one place, by argument name. */
function rowAt(names: readonly string[], matrices: readonly Matrix[], row: number, column: number): Row {
  const cells: Record<string, CellContent> = {};
  names.forEach((name, i) => {
    cells[name] = cellContent(at(matrices[i] ?? EMPTY, row, column));
  });
  return cells;
}

/**
 * Reads one place: the values of all arguments, or what stands in the result instead of a calculation.
 *
 * @throws CellError for a cell that cannot be read
 */
function readRow<A extends Arguments>(args: A, row: Row): Values<A> | undefined {
  for (const [name, { label }] of Object.entries(args)) {
    const content = row[name];
    if (content instanceof CellError) throw new CellError(content.code, passedOn(label));
  }
  const plain = row as Readonly<Record<string, Plain>>;
  for (const [name, argument] of Object.entries(args))
    if (argument.leavesBlank(plain[name], row)) return undefined;
  const values: Record<string, unknown> = {};
  for (const [name, argument] of Object.entries(args)) values[name] = argument.read(plain[name]);
  return values as Values<A>;
}

/** What a function does with the cells of one place, for another function that does the same and more. */
export type InPlace = (row: Row) => Result;

export type Elementwise = FunctionSpec & { readonly inPlace: InPlace };

const parametersOf = (args: Arguments): FunctionSpec["parameters"] =>
  Object.entries(args).map(([name, { description, optional, namesInstrument }]) => ({
    name,
    description,
    optional,
    namesInstrument: namesInstrument === true,
  }));

/** A function that goes through its arguments cell by cell. */
export function elementwise<A extends Arguments>(
  words: Words,
  args: A,
  each: (values: Values<A>) => Result,
): Elementwise {
  const names = Object.keys(args);
  const inPlace: InPlace = (row) =>
    inCell(() => {
      const values = readRow(args, row);
      return values === undefined ? BLANK : each(values);
    });
  return {
    ...words,
    parameters: parametersOf(args),
    inPlace,
    calculate: (matrices) => fill(commonShape(matrices), (r, c) => inPlace(rowAt(names, matrices, r, c))),
  };
}

/**
 * A function that takes lists, and perhaps single values beside them: the lists are read together, line by line, and empty
 * lines are passed over.
 *
 * @param order names of all arguments as the formula has them
 */
export function overLists<A extends Arguments, L extends Arguments>(
  words: Words,
  order: readonly (keyof (A & L) & string)[],
  args: A,
  lists: L,
  each: (values: Values<A>, lines: readonly Values<L>[]) => Result,
): FunctionSpec {
  const all: Arguments = { ...args, ...lists };
  const pick = (from: Arguments, matrices: readonly Matrix[]): readonly [string[], Matrix[]] => {
    const names = Object.keys(from);
    return [names, names.map((name) => matrices[order.indexOf(name)] ?? EMPTY)];
  };
  return {
    ...words,
    parameters: order.flatMap((name) => parametersOf({ [name]: all[name] as Argument<unknown> })),
    calculate: (matrices) => {
      const lines = inCell(() => readLines(lists, ...pick(lists, matrices)));
      const [names, own] = pick(args, matrices);
      return fill(commonShape(own), (r, c) =>
        inCell(() => {
          const values = readRow(args, rowAt(names, own, r, c));
          if (values === undefined) return BLANK;
          if (lines instanceof CellError) throw lines;
          return lines.length === 0 ? BLANK : each(values, lines);
        }),
      );
    },
  };
}

/** @throws CellError that says in which line of the list */
function readLines<L extends Arguments>(
  lists: L,
  names: readonly string[],
  matrices: readonly Matrix[],
): Values<L>[] {
  const shape = commonShape(matrices);
  const lines: Values<L>[] = [];
  for (let r = 0; r < shape.rows; r++)
    for (let c = 0; c < shape.columns; c++) {
      const line = inCell(() => readRow(lists, rowAt(names, matrices, r, c)));
      if (line instanceof CellError)
        throw new CellError(
          line.code,
          inRow((shape.columns === 1 ? r : r * shape.columns + c) + 1, line.message),
        );
      if (line !== undefined) lines.push(line);
    }
  return lines;
}

function fill({ rows, columns }: Shape, cell: (row: number, column: number) => Result): Result[][] {
  return Array.from({ length: rows }, (_, r) => Array.from({ length: columns }, (_, c) => cell(r, c)));
}
