import { describe, expect, test } from "vitest";
import { at, commonShape, shapeOf } from "../../../src/functions/contract/broadcast.js";
import { CellError, type RawCells } from "../../../src/functions/contract/cell-value.js";

/** A range of numbered cells. */
const range = (rows: number, columns: number): RawCells =>
  Array.from({ length: rows }, (_, r) => Array.from({ length: columns }, (_, c) => 10 * r + c));

const shape = (...sizes: [number, number][]): string => {
  const { rows, columns } = commonShape(sizes.map(([rows, columns]) => range(rows, columns)));
  return `${rows} × ${columns}`;
};

describe("the shape that arguments make together", () => {
  test.each([
    [[[1, 1]], "1 × 1"],
    [[[3, 2]], "3 × 2"],
    [
      [
        [3, 2],
        [1, 1],
        [3, 2],
      ],
      "3 × 2",
    ],
    [
      [
        [3, 1],
        [1, 4],
      ],
      "3 × 4",
    ],
    [
      [
        [1, 4],
        [3, 1],
        [1, 1],
        [3, 1],
      ],
      "3 × 4",
    ],
    [
      [
        [1, 4],
        [1, 4],
      ],
      "1 × 4",
    ],
    [[], "1 × 1"],
  ] as [[number, number][], string][])("of %j is %s", (sizes, together) => {
    expect(shape(...sizes)).toBe(together);
  });

  test.each([
    [
      [
        [3, 1],
        [2, 1],
      ],
    ],
    [
      [
        [1, 3],
        [1, 2],
      ],
    ],
    [
      [
        [3, 2],
        [3, 1],
      ],
    ],
    [
      [
        [3, 2],
        [1, 2],
      ],
    ],
    [
      [
        [3, 2],
        [2, 3],
      ],
    ],
    [
      [
        [3, 1],
        [1, 4],
        [3, 4],
      ],
    ],
    [
      [
        [3, 1],
        [1, 4],
        [2, 1],
      ],
    ],
    [
      [
        [3, 1],
        [1, 4],
        [1, 5],
      ],
    ],
  ] as [[number, number][]][])("of %j is none", (sizes) => {
    expect(() => shape(...sizes)).toThrow(CellError);
  });
});

test("the cell at a place of a grid is that of its row, of its column, or the only one", () => {
  expect(at(range(3, 4), 2, 3)).toBe(23);
  expect(at(range(3, 1), 2, 3)).toBe(20);
  expect(at(range(1, 4), 2, 3)).toBe(3);
  expect(at([["only"]], 2, 3)).toBe("only");
  expect(at(range(2, 2), 5, 0)).toBeUndefined();
});

test("a range has the columns of its first row, and one without rows has none", () => {
  expect([shapeOf(range(2, 3)), shapeOf([])]).toEqual([
    { rows: 2, columns: 3 },
    { rows: 0, columns: 0 },
  ]);
});
