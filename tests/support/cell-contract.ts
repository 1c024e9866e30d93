// What holds for every cell function, whatever it is given.
import { isDeepStrictEqual } from "node:util";
import { at } from "../../src/functions/contract/broadcast.js";
import { call, matrix } from "../../src/functions/contract/call.js";
import {
  cellContent,
  CellError,
  type RawCells,
  type Result,
} from "../../src/functions/contract/cell-value.js";
import type { FunctionSpec } from "../../src/functions/contract/function-spec.js";
import { unknownFailure } from "../../src/functions/contract/messages.js";
import { namesSome } from "../../src/functions/contract/named-throughout.js";

const codes = new Set(["#VALUE!", "#N/A", "#DIV/0!", "#NUM!", "#NULL!"]);

/** What is wrong with a cell: it is to be a finite number, text, a truth value, a blank, or an error that says something. */
function unsound(result: Result): string | undefined {
  if (typeof result === "number") return Number.isFinite(result) ? undefined : `gives ${result}`;
  if (typeof result === "string" || typeof result === "boolean") return undefined;
  if (!(result instanceof CellError)) return `gives ${String(result)}`;
  if (result.message === unknownFailure) return "fails inside";
  if (result.message === "" || /\b(NaN|undefined|null|\[object|Infinity)\b/.test(ownWords(result)))
    return `gives ${result.code} "${result.message}"`;
  return codes.has(result.code) ? undefined : `gives a code ${result.code}`;
}

/** A message without what it quotes. */
const ownWords = ({ message }: CellError): string => message.replace(/".*"/s, "");

/** How large the arguments make the result, if they go together at all. */
function size(matrices: readonly RawCells[]): readonly [rows: number, columns: number] {
  return [
    Math.max(1, ...matrices.map((cells) => cells.length)),
    Math.max(1, ...matrices.map((cells) => cells[0]?.length ?? 0)),
  ];
}

const isError = (results: readonly Result[][]): boolean =>
  results.length === 1 && results[0]?.length === 1 && results[0][0] instanceof CellError;

function documentedSize(spec: FunctionSpec, matrices: readonly RawCells[]): readonly [number, number] {
  const [rows, columns] = size(matrices);
  if (spec.name === "SEASON") return [rows, 5];
  if (spec.name === "FERMENT.STAGES") return [4, 3];
  if (spec.name === "FERMENT.SMOOTH") return size(matrices.slice(0, 2));
  const single = matrices.filter((_, i) => !spec.lists?.includes(spec.parameters[i]?.name ?? ""));
  return spec.lists ? size(single) : [rows, columns];
}

/** Whether a cell alone is something else than among the cells of its range: an empty one beside others that name something. */
const dependsOnRange = (
  { parameters }: FunctionSpec,
  matrices: readonly RawCells[],
  r: number,
  c: number,
): boolean =>
  parameters.some(({ namedThroughout }, i) => {
    const content = cellContent(at(matrices[i] ?? [[]], r, c));
    return namedThroughout && (content === undefined || content === 0) && namesSome(matrices[i] ?? [[]]);
  });

const goesCellByCell = (spec: FunctionSpec): boolean => !spec.lists && spec.name !== "SEASON";

/** A call without waiting: the instruments are there. */
function results(spec: FunctionSpec, args: readonly unknown[]): Result[][] {
  const found = call(spec, args);
  if (found instanceof Promise) throw new Error(`${spec.name} waits for instruments`);
  return found;
}

const same = (a: unknown, b: unknown): boolean =>
  a instanceof CellError && b instanceof CellError
    ? a.code === b.code && a.message === b.message
    : isDeepStrictEqual(a, b);

/** Calls a function and holds the cells against what is promised of them. @returns what is broken */
export function called(
  spec: FunctionSpec,
  args: readonly unknown[],
): { readonly cells: Result[][]; readonly broken: string | undefined } {
  const cells = results(spec, args);
  const matrices = spec.parameters.map((_, i) => matrix(args[i]));
  const [rows, columns] = documentedSize(spec, matrices);
  const bad = cells
    .flat()
    .map(unsound)
    .find((problem) => problem !== undefined);
  if (bad !== undefined) return { cells, broken: bad };
  const fits = cells.length === rows && cells.every((row) => row.length === columns);
  return { cells, broken: fits || isError(cells) ? undefined : `gives no ${rows} × ${columns} cells` };
}

/** Whether a second look at the same arguments finds the same: again, cell by cell, and as the explanation has it. */
export function stable(
  spec: FunctionSpec,
  args: readonly unknown[],
  cells: readonly Result[][],
): string | undefined {
  const again = results(spec, args);
  const matrices = spec.parameters.map((_, i) => matrix(args[i]));
  const isWhole = isError(cells) && size(matrices).some((length) => length > 1);
  for (const [r, row] of cells.entries())
    for (const [c, cell] of row.entries()) {
      if (!same(cell, again[r]?.[c])) return "gives something else the second time";
      if (isWhole) continue;
      if (goesCellByCell(spec) && !dependsOnRange(spec, matrices, r, c)) {
        const alone = results(
          spec,
          matrices.map((cells) => [[at(cells, r, c)]]),
        );
        if (!same(cell, alone[0]?.[0])) return `gives something else for the cell ${r}, ${c} alone`;
      }
      const told = spec.tell && explained(spec, matrices, r, c);
      if (told !== undefined && !same(cell, told)) return `explains another result for the cell ${r}, ${c}`;
    }
  return undefined;
}

function explained(spec: FunctionSpec, matrices: readonly RawCells[], row: number, column: number): unknown {
  const nothing = { step: () => undefined, warn: () => undefined };
  try {
    return spec.tell?.(matrices, row, column, nothing);
  } catch (error) {
    return error;
  }
}
