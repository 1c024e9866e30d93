import { type Reason, Refusal } from "../../core/refusal.js";
import type { Listener } from "../../core/steps.js";
import type { ArgumentSpec, Beside, Plain } from "./argument.js";
import { at, commonShape } from "./broadcast.js";
import {
  cellContent,
  type CellContent,
  CellError,
  type RawCells,
  type Result,
  type Shape,
  Unnamed,
} from "./cell-value.js";
import type { FunctionSpec, Words } from "./function-spec.js";
import { namedThroughout } from "./named-throughout.js";
import { inRow, passedOn, sentence } from "./messages.js";

type Arguments = Readonly<Record<string, ArgumentSpec<unknown>>>;
type Values<A extends Arguments> = {
  readonly [K in keyof A]: A[K] extends ArgumentSpec<infer T> ? T : never;
};

/** One line of the lists that a function reads together, with its row, from 1. */
export type ListRow<L extends Arguments> = Values<L> & { readonly row: number };

/** Missing arguments are empty cells. */
const EMPTY: RawCells = [[undefined]];

const BLANK = "";

/** Refusals for data that do not exist rather than being wrong, such as a log that ends too early. */
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
 * @throws anything else, unchanged: it is a bug of ours
 */
export function asCellError(error: unknown): CellError {
  if (error instanceof CellError) return error;
  if (error instanceof Refusal) {
    const { reason } = error;
    return new CellError(notAvailable.has(reason.kind) ? "#N/A" : "#VALUE!", sentence(reason));
  }
  throw error;
}

/** Runs a calculation for a cell; a refusal becomes an error that says why. */
export function inCell<T>(calculate: () => T): T | CellError {
  try {
    return calculate();
  } catch (error) {
    return asCellError(error);
  }
}

/** The cells at one place, in the order of the arguments. */
type Cells = readonly CellContent[];

const cellsAt = (matrices: readonly RawCells[], row: number, column: number): Cells =>
  matrices.map((matrix) => cellContent(at(matrix, row, column)));

/** @throws CellError passing on an error; the mark of an unnamed cell is not one yet */
export function refuseError({ label }: ArgumentSpec<unknown>, content: CellContent): void {
  if (content instanceof CellError && !(content instanceof Unnamed))
    throw new CellError(content.code, passedOn(label));
}

/** Whether a cell leaves the result blank. */
export function isBlank(
  { blanks, zeroIsValue }: ArgumentSpec<unknown>,
  content: CellContent,
  beside: Beside,
): boolean {
  return blanks === true && (content === undefined || (content === 0 && zeroIsValue?.(beside) !== true));
}

/** Value of a cell that is neither an error nor blank. @throws CellError for content that cannot be read */
export function valueOf<T>({ read }: ArgumentSpec<T>, content: CellContent): T {
  if (content instanceof Unnamed) throw new CellError(content.code, content.message);
  return read(content as Plain);
}

/** Reads the cells at a place for some arguments; created once per function. */
interface Reader {
  readonly names: readonly string[];
  /** Selects its arguments from those given, each by its index among all. */
  readonly pick: (given: readonly RawCells[], order: readonly string[]) => RawCells[];
  /**
   * The values of all arguments by name, or undefined if the result is to be blank.
   *
   * @throws CellError for a cell that cannot be read
   */
  readonly read: (cells: Cells) => Record<string, unknown> | undefined;
}

function readerOf(args: Arguments): Reader {
  const names = Object.keys(args);
  const list = Object.values(args);
  return {
    names,
    pick: (given, order) =>
      list.map((argument, i) => namedThroughout(argument, given[order.indexOf(names[i] ?? "")] ?? EMPTY)),
    read: (cells) => {
      const beside: Beside = (name) => cells[names.indexOf(name)];
      let i = 0;
      for (const argument of list) refuseError(argument, cells[i++]);
      i = 0;
      for (const argument of list) if (isBlank(argument, cells[i++], beside)) return undefined;
      i = 0;
      const values: Record<string, unknown> = {};
      for (const argument of list) values[names[i] ?? ""] = valueOf(argument, cells[i++]);
      return values;
    },
  };
}

/** Arguments as shown in the formula bar and the lists. */
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

/** A function that works element by element. */
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
  const matricesOf = (given: readonly RawCells[]): RawCells[] => pick(given, names);
  return {
    ...words,
    parameters: parametersOf(args),
    goesBy: "cell",
    inPlace,
    calculate: (given) => {
      const matrices = matricesOf(given);
      return fill(commonShape(matrices), (r, c) => inPlace(cellsAt(matrices, r, c)));
    },
    tell: (given, row, column, to) => inPlace(cellsAt(matricesOf(given), row, column), to),
  };
}

/**
 * A function of lists, and perhaps single values beside them: the lists are read together, line by line, and empty
 * lines are skipped.
 *
 * @param order names of all arguments in the order of the formula
 */
export function overLists<A extends Arguments, L extends Arguments>(
  words: Words,
  order: readonly (keyof (A & L) & string)[],
  args: A,
  lists: L,
  each: (values: Values<A>, lines: readonly ListRow<L>[], to?: Listener) => Result,
): FunctionSpec {
  const all: Arguments = { ...args, ...lists };
  const own = readerOf(args);
  const line = readerOf(lists);
  type Lines = ReturnType<typeof readLines> | CellError;
  const inPlace = (
    matrices: readonly RawCells[],
    lines: Lines,
    r: number,
    c: number,
    to?: Listener,
  ): Result =>
    inCell(() => {
      const values = own.read(cellsAt(matrices, r, c));
      if (values === undefined) return BLANK;
      if (lines instanceof CellError) throw lines;
      return lines.length === 0 ? BLANK : each(values as Values<A>, lines as ListRow<L>[], to);
    });
  const linesOf = (given: readonly RawCells[]): Lines =>
    inCell(() => readLines(line, line.pick(given, order)));
  return {
    ...words,
    parameters: order.flatMap((name) => parametersOf({ [name]: all[name] as ArgumentSpec<unknown> })),
    lists: line.names,
    calculate: (given) => {
      const lines = linesOf(given);
      const matrices = own.pick(given, order);
      return fill(commonShape(matrices), (r, c) => inPlace(matrices, lines, r, c));
    },
    tell: (given, row, column, to) => inPlace(own.pick(given, order), linesOf(given), row, column, to),
  };
}

function readLines({ read }: Reader, matrices: readonly RawCells[]): Record<string, unknown>[] {
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

/** Processes one line of a list. @throws CellError that says in which row */
export function inLine<T>(row: number, work: () => T): T {
  const result = inCell(work);
  if (result instanceof CellError) throw new CellError(result.code, inRow(row, result.message));
  return result;
}

function fill({ rows, columns }: Shape, cell: (row: number, column: number) => Result): Result[][] {
  return Array.from({ length: rows }, (_, r) => Array.from({ length: columns }, (_, c) => cell(r, c)));
}
