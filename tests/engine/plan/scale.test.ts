import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DependencyGraph } from "../../../src/engine/plan/dependency-graph.js";
import { topologicalOrder } from "../../../src/engine/plan/strong-components.js";
import { OutputIndex } from "../../../src/engine/plan/output-index.js";
import type { PositionedArea } from "../../../src/engine/values.js";

interface Read {
  readonly area: PositionedArea;
  readonly shared: boolean;
}

const column = (top: number, bottom: number, at = 0): PositionedArea => ({
  sheet: 0,
  top,
  left: at,
  bottom,
  right: at,
});
const edges = (graph: DependencyGraph): number => graph.start(graph.nodeCount);

function graphOf(
  positions: { row: number; column: number }[],
  reads: (formula: number) => Read[],
): DependencyGraph {
  const formulas = positions.map((position) => ({ sheet: 0, ...position }));
  return DependencyGraph.build(formulas.length, reads, new OutputIndex(formulas, new Map()));
}

describe("the number of edges stays near the number of formulas", () => {
  const count = 20_000;
  const rows = Array.from({ length: count }, (_, row) => row);

  test("for running ranges, each one longer than the one before", () => {
    // Column 1 sums column 0 from the top down to its own row.
    const positions = [0, 1].flatMap((at) => rows.map((row) => ({ row, column: at })));
    const graph = graphOf(positions, (formula) =>
      formula < count ? [] : [{ area: column(0, formula - count), shared: false }],
    );
    expect(edges(graph)).toBeLessThan(count * 2 * Math.ceil(Math.log2(count)));
  });

  test("for the same whole column in every formula", () => {
    const positions = [0, 1].flatMap((at) => rows.map((row) => ({ row, column: at })));
    const graph = graphOf(positions, (formula) =>
      formula < count ? [] : [{ area: column(0, 1_048_575), shared: true }],
    );
    expect(edges(graph)).toBeLessThan(6 * count);
  });
});

test("the graph leads from a formula to exactly the formulas whose cells it reads", () => {
  const place = fc.record({ row: fc.nat(9), column: fc.nat(3) });
  const positions = fc.uniqueArray(place, {
    selector: ({ row, column: c }) => `${row},${c}`,
    minLength: 1,
    maxLength: 20,
  });
  const range = fc.tuple(place, place, fc.boolean());
  fc.assert(
    fc.property(positions, fc.array(range, { maxLength: 20 }), (cells, ranges) => {
      const reads = (formula: number): Read[] => {
        const [a, b, shared] = ranges[formula % Math.max(1, ranges.length)] ?? [];
        if (!a || !b) return [];
        const area = {
          sheet: 0,
          top: Math.min(a.row, b.row),
          left: Math.min(a.column, b.column),
          bottom: Math.max(a.row, b.row),
          right: Math.max(a.column, b.column),
        };
        return [{ area, shared: shared ?? false }];
      };
      const graph = graphOf(cells, reads);
      for (const formula of cells.keys()) {
        const expected = cells.flatMap((cell, i) =>
          reads(formula).some(
            ({ area }) =>
              cell.row >= area.top &&
              cell.row <= area.bottom &&
              cell.column >= area.left &&
              cell.column <= area.right,
          )
            ? [i]
            : [],
        );
        // Direct neighbours only: nothing is followed through another formula.
        const reached = graph.reachable([formula], (node) => node < cells.length && node !== formula);
        const found = cells.flatMap((_, i) =>
          reached[i] === 1 && (i !== formula || expected.includes(i)) ? [i] : [],
        );
        expect(found).toEqual(expected);
      }
    }),
    { numRuns: 300 },
  );
});

test("a chain of a hundred thousand formulas is put in order without running out of stack", () => {
  const count = 100_000;
  const positions = Array.from({ length: count }, (_, row) => ({ row, column: 0 }));
  const graph = graphOf(positions, (formula) =>
    formula + 1 < count ? [{ area: column(formula + 1, formula + 1), shared: false }] : [],
  );
  const { order, components } = topologicalOrder(graph);
  expect(components).toEqual([]);
  expect([...order].filter((node) => node < count).slice(0, 3)).toEqual([count - 1, count - 2, count - 3]);
});
