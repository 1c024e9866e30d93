import type { Course } from "../../functions/fermentation-course.js";
import type { InstrumentSet } from "../../instruments/set.js";
import type { ShownValue } from "../../changes/changed-cell.js";
import type { Explanation } from "../../functions/explain.js";
import type { RawCells } from "../../functions/contract/cell-value.js";
import type { FunctionsPort } from "../ports/functions-port.js";
import type { InnerCall, SelectedFormula } from "../ports/selection-port.js";

/** Explanation of one call in the selected cell's formula. */
export interface ExplainedCall {
  readonly name: string;
  /** Undefined if its arguments cannot be determined from outside. */
  readonly explanation: Explanation | undefined;
  /** The fermentation log that the call reads. */
  readonly course: Course | undefined;
  /**
   * Number of cells that the call returns, if the rest of the formula combines several of them into this one; otherwise
   * 1.
   */
  readonly cells: number;
}

/**
 * Explains the calls that lead to the value of the selected cell, the outermost first. Only that cell is calculated.
 */
export function explainedCalls(
  { calls, row, column }: SelectedFormula,
  functions: FunctionsPort,
  set: InstrumentSet,
): ExplainedCall[] {
  const results = new Results(calls, functions, set);
  return calls
    .map(({ name, isWhole }, i): ExplainedCall => {
      const shape = results.shape(i);
      if (!shape) return { name, explanation: undefined, course: undefined, cells: 1 };
      const isSpread = isWhole || row < shape.rows;
      const [r, c] = isSpread ? [row, column] : [0, 0];
      const args = results.argsFor(i, r, c) ?? [];
      return {
        name,
        explanation: functions.explain(name, args, r, c, set),
        course: functions.course(name, args),
        cells: isWhole || row > 0 || column > 0 ? 1 : shape.rows * shape.columns,
      };
    })
    .reverse();
}

type Args = readonly (RawCells | undefined)[];
type Shape = ReturnType<FunctionsPort["shape"]>;

/** Arguments and results of a formula's calls, calculated on demand. */
class Results {
  readonly #wholes = new Map<number, RawCells | undefined>();
  readonly #shapes = new Map<number, Shape | undefined>();

  constructor(
    private readonly calls: readonly InnerCall[],
    private readonly functions: FunctionsPort,
    private readonly set: InstrumentSet,
  ) {}

  /** Rows and columns of a call's result; undefined if its arguments cannot be determined. */
  shape(i: number): Shape | undefined {
    if (!this.#shapes.has(i)) {
      // The shape does not depend on the content of the cells.
      const args = this.#isLocal(i) ? this.#args(i, (j) => blank(this.shape(j))) : this.#args(i, this.#whole);
      this.#shapes.set(i, args && this.functions.shape(this.#name(i), args, this.set));
    }
    return this.#shapes.get(i);
  }

  /** Arguments of a call that are correct wherever one cell of its result depends on them. */
  argsFor(i: number, row: number, column: number): Args | undefined {
    if (!this.#isLocal(i)) return this.#args(i, this.#whole);
    return this.#args(i, (j) => {
      const shape = this.shape(j);
      if (!shape) return undefined;
      const [r, c] = [shape.rows === 1 ? 0 : row, shape.columns === 1 ? 0 : column];
      return r < shape.rows && c < shape.columns ? blank(shape, r, c, this.#at(j, r, c)) : this.#whole(j);
    });
  }

  #at(i: number, row: number, column: number): unknown {
    const args = this.argsFor(i, row, column);
    return args && asCell(this.functions.at(this.#name(i), args, row, column, this.set));
  }

  readonly #whole = (i: number): RawCells | undefined => {
    if (!this.#wholes.has(i)) {
      const args = this.#args(i, this.#whole);
      const all = args && this.functions.evaluate(this.#name(i), args, this.set);
      this.#wholes.set(
        i,
        all?.map((line) => line.map(asCell)),
      );
    }
    return this.#wholes.get(i);
  };

  /** @param inner value of an argument that is another call; undefined if it cannot be determined */
  #args(i: number, inner: (j: number) => RawCells | undefined): Args | undefined {
    const args: (RawCells | undefined)[] = [];
    for (const argument of this.calls[i]?.args ?? []) {
      const isInner = argument && "call" in argument;
      const rows = isInner ? inner(argument.call) : argument;
      if (isInner && !rows) return undefined;
      args.push(rows);
    }
    return this.calls[i]?.args && args;
  }

  #name(i: number): string {
    return this.calls[i]?.name ?? "";
  }

  #isLocal(i: number): boolean {
    return this.functions.list.find(({ name }) => name === this.#name(i))?.goesBy === "cell";
  }
}

/** A block of cells, blank except for one. */
function blank(shape: Shape): RawCells;
function blank(
  shape: Shape | undefined,
  row?: number,
  column?: number,
  content?: unknown,
): RawCells | undefined;
function blank(shape: Shape | undefined, row = 0, column = 0, content: unknown = ""): RawCells | undefined {
  if (!shape) return undefined;
  const line: unknown[] = Array.from({ length: shape.columns }, () => "");
  const rows = Array.from({ length: shape.rows }, () => line);
  rows[row] = line.with(column, content);
  return rows;
}

/** A result as a cell passes it to other formulas. */
const asCell = (result: ShownValue): unknown => (typeof result === "object" ? { code: result.code } : result);
