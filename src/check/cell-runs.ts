import { cellAddress } from "../cells/a1.js";

interface Cell {
  readonly row: number;
  readonly column: number;
}

/** Cells in readable form: runs of adjacent cells in a column are joined, "E4:E9". */
export function cellRuns(cells: readonly Cell[]): string[] {
  const sorted = [...cells].sort((a, b) => a.column - b.column || a.row - b.row);
  const runs: { first: Cell; last: Cell }[] = [];
  for (const cell of sorted) {
    const run = runs.at(-1);
    if (run?.last.column === cell.column && run.last.row === cell.row - 1) run.last = cell;
    else runs.push({ first: cell, last: cell });
  }
  return runs.map(({ first, last }) =>
    first === last
      ? cellAddress(first.row, first.column)
      : `${cellAddress(first.row, first.column)}:${cellAddress(last.row, last.column)}`,
  );
}
