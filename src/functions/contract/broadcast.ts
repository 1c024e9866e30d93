import { CellError, type RawCells, type Shape } from "./cell-value.js";
import { shapesDiffer } from "./messages.js";

const ONE: Shape = { rows: 1, columns: 1 };

export function shapeOf(matrix: RawCells): Shape {
  return { rows: matrix.length, columns: matrix[0]?.length ?? 0 };
}

const isOne = ({ rows, columns }: Shape): boolean => rows === 1 && columns === 1;

/**
 * Common shape of the arguments after broadcasting: equal shapes are combined element by element, a single cell is
 * repeated, a row and a column make a grid.
 *
 * @throws CellError for other shapes
 */
export function commonShape(matrices: readonly RawCells[]): Shape {
  const shapes = matrices.map(shapeOf).filter((shape) => !isOne(shape));
  const first = shapes[0] ?? ONE;
  if (shapes.every((shape) => shape.rows === first.rows && shape.columns === first.columns)) return first;
  const row = shapes.find((shape) => shape.rows === 1);
  const column = shapes.find((shape) => shape.columns === 1);
  const fits = ({ rows, columns }: Shape): boolean =>
    (rows === 1 && columns === row?.columns) || (columns === 1 && rows === column?.rows);
  if (row && column && shapes.every(fits)) return { rows: column.rows, columns: row.columns };
  throw new CellError("#VALUE!", shapesDiffer(shapes));
}

/** The cell of a matrix at a place of the common shape. */
export function at(matrix: RawCells, row: number, column: number): unknown {
  const cells = matrix.length === 1 ? matrix[0] : matrix[row];
  return cells?.length === 1 ? cells[0] : cells?.[column];
}
