import { type Reason, Refusal } from "../../core/refusal.js";
import type { Listener } from "../../core/steps.js";
import type { Argument, Plain } from "./argument.js";
import { at, commonShape } from "./broadcast.js";
import {
  cellContent,
  type CellContent,
  CellError,
  type Matrix,
  type Result,
  type Shape,
  Unnamed,
} from "./cell-value.js";
import type { FunctionSpec, Words } from "./function-spec.js";
import { namedThroughout } from "./named-throughout.js";
import { inRow, passedOn, sentence } from "./messages.js";

type Arguments = Readonly<Record<string, Argument<unknown>>>;
type Values<A extends Arguments> = { readonly [K in keyof A]: A[K] extends Argument<infer T> ? T : never };

/** One line of the lists that a function reads together, and the row that it stands in, from 1. */
export type Line<L extends Arguments> = Values<L> & { readonly row: number };

/** Missing arguments are empty cells. */
const EMPTY: Matrix = [[undefined]];

const BLANK = "";

/** What is not wrong but not there: the log does not go so far. */
const notAvailable: ReadonlySet<Reason["kind"]> = new Set<Reason["kind"]>([
  "outside-log",
  "too-few-readings",
  "below-from-the-start",
  "no-fall-yet",
  "no-curve",
  "not-slowing",
  "levels-off-above",
  "forecast-vague",
]);

/**
 * A refusal becomes #VALUE! with its sentence, or #N/A.
 *
 * @throws whatever else it is: a bug of ours stays what it is
 */
export function asCellError(error: unknown): CellError {
  if (error instanceof CellError) return error;
  if (error instanceof Refusal) {
    const { reason } = error;
    return new CellError(notAvailable.has(reason.kind) ? "#N/A" : "#VALUE!", sentence(reason));
  }
  throw error;
}

/** What happens inside a cell: what cannot be calculated becomes an error that says why. */
export function inCell<T>(calculate: () => T): T | CellError {
  try {
    return calculate();
  } catch (error) {
    return asCellError(error);
  }
}

/** The cells of one place, in the order of the arguments. */
type Cells = readonly CellContent[];

const cellsAt = (matrices: readonly Matrix[], row: number, column: number): Cells =>
  matrices.map((matrix) => cellContent(at(matrix, row, column)));

type Named = readonly (readonly [name: string, argument: Argument<unknown>])[];
type ValuesOf<N extends Named> = {
  -readonly [I in keyof N]: N[I] extends readonly [string, Argument<infer T>] ? T : never;
};

/**
 * Reads the cells of one place, one for each argument, in their order.
 *
 * @returns a reader; it gives undefined where the result is to be blank, and throws CellError for a cell that cannot be read
 */
export function placeReader<const N extends Named>(named: N): (cells: Cells) => ValuesOf<N> | undefined {
  const names = named.map(([name]) => name);
  const list = named.map(([, argument]) => argument);
  const isEmpty = ({ zeroIsValue }: Argument<unknown>, content: CellContent, cells: Cells): boolean =>
    content === undefined || (content === 0 && !zeroIsValue?.((name) => cells[names.indexOf(name)]));
  return (cells) => {
    let i = 0;
    for (const { label } of list) {
      const content = cells[i++];
      if (content instanceof CellError && !(content instanceof Unnamed))
        throw new CellError(content.code, passedOn(label));
    }
    i = 0;
    for (const argument of list) {
      const content = cells[i++];
      if (argument.blanks && isEmpty(argument, content, cells)) return undefined;
    }
    const values: unknown[] = [];
    for (const argument of list) {
      const content = cells[values.length];
      if (content instanceof Unnamed) throw new CellError(content.code, content.message);
      values.push(argument.read(content as Plain));
    }
    return values as ValuesOf<N>;
  };
}

/** A reader of places for some arguments; made once for each function. */
interface Reader {
  readonly names: readonly string[];
  /** Its arguments as a formula gives them, each at a place among all. */
  readonly pick: (given: readonly Matrix[], order: readonly string[]) => Matrix[];
  /** The values of all arguments, by name, or undefined where the result is to be blank. */
  readonly read: (cells: Cells) => Record<string, unknown> | undefined;
}

function readerOf(args: Arguments): Reader {
  const named = Object.entries(args);
  const readPlace = placeReader(named);
  return {
    names: named.map(([name]) => name),
    pick: (given, order) =>
      named.map(([name, argument]) => namedThroughout(argument, given[order.indexOf(name)] ?? EMPTY)),
    read: (cells) => {
      const values = readPlace(cells);
      if (values === undefined) return undefined;
      const byName: Record<string, unknown> = {};
      let i = 0;
      for (const [name] of named) byName[name] = values[i++];
      return byName;
    },
  };
}

/** Arguments as the formula bar and the lists have them. */
export const parametersOf = (args: Arguments): FunctionSpec["parameters"] =>
  Object.entries(args).map(([name, { description, optional, choices, ...names }]) => ({
    name,
    description,
    optional,
    namesInstrument: names.namesInstrument === true,
    instrumentKind: names.instrumentKind,
    choices: choices ?? [],
    namedThroughout: names.namedThroughout === true,
  }));

/** A function that goes through its arguments cell by cell. */
export function elementwise<A extends Arguments>(
  words: Words,
  args: A,
  each: (values: Values<A>, to?: Listener) => Result,
): FunctionSpec {
  const { names, pick, read } = readerOf(args);
  const inPlace = (cells: Cells, to?: Listener): Result => {
    try {
      const values = read(cells);
      return values === undefined ? BLANK : each(values as Values<A>, to);
    } catch (error) {
      return asCellError(error);
    }
  };
  const matricesOf = (given: readonly Matrix[]): Matrix[] => pick(given, names);
  return {
    ...words,
    parameters: parametersOf(args),
    goesBy: "cell",
    calculate: (given) => {
      const matrices = matricesOf(given);
      return fill(commonShape(matrices), (r, c) => inPlace(cellsAt(matrices, r, c)));
    },
    tell: (given, row, column, to) => inPlace(cellsAt(matricesOf(given), row, column), to),
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
  each: (values: Values<A>, lines: readonly Line<L>[], to?: Listener) => Result,
): FunctionSpec {
  const all: Arguments = { ...args, ...lists };
  const own = readerOf(args);
  const line = readerOf(lists);
  type Lines = ReturnType<typeof readLines> | CellError;
  const inPlace = (matrices: readonly Matrix[], lines: Lines, r: number, c: number, to?: Listener): Result =>
    inCell(() => {
      const values = own.read(cellsAt(matrices, r, c));
      if (values === undefined) return BLANK;
      if (lines instanceof CellError) throw lines;
      return lines.length === 0 ? BLANK : each(values as Values<A>, lines as Line<L>[], to);
    });
  const linesOf = (given: readonly Matrix[]): Lines => inCell(() => readLines(line, line.pick(given, order)));
  return {
    ...words,
    parameters: order.flatMap((name) => parametersOf({ [name]: all[name] as Argument<unknown> })),
    lists: line.names,
    calculate: (given) => {
      const lines = linesOf(given);
      const matrices = own.pick(given, order);
      return fill(commonShape(matrices), (r, c) => inPlace(matrices, lines, r, c));
    },
    tell: (given, row, column, to) => inPlace(own.pick(given, order), linesOf(given), row, column, to),
  };
}

function readLines({ read }: Reader, matrices: readonly Matrix[]): Record<string, unknown>[] {
  const { rows, columns } = commonShape(matrices);
  const lines: Record<string, unknown>[] = [];
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) {
      const row = r * columns + c + 1;
      const line = inLine(row, () => read(cellsAt(matrices, r, c)));
      if (line !== undefined) lines.push({ ...line, row });
    }
  return lines;
}

/** What is done with one line of a list. @throws CellError that says in which row */
export function inLine<T>(row: number, work: () => T): T {
  const result = inCell(work);
  if (result instanceof CellError) throw new CellError(result.code, inRow(row, result.message));
  return result;
}

function fill({ rows, columns }: Shape, cell: (row: number, column: number) => Result): Result[][] {
  return Array.from({ length: rows }, (_, r) => Array.from({ length: columns }, (_, c) => cell(r, c)));
}
