import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { calculated, plain, workbook } from "../workbooks.js";

const named = (cycles: ReturnType<typeof calculated>["cycles"]): string[][] =>
  cycles.map((cycle) =>
    cycle.map(({ sheet, row, column }) => `${sheet}!${"ABCDEFGH".charAt(column)}${row + 1}`),
  );

describe("a circular reference", () => {
  test("of ours is told with its cells in order; they and what depends on them stay, all else is calculated", () => {
    const after = calculated(
      workbook({
        S: {
          A1: "=GYLE.DOUBLE(1)",
          B1: "=A1+1",
          C1: plain("C2+GYLE.DOUBLE(A1)", 1),
          C2: plain("D3", 1),
          D3: plain("C1*2", 1),
          E1: plain("GYLE.DOUBLE(D3)+A1", 5),
        },
      }),
    );
    expect(after.changed).toEqual(["A1", "B1"]);
    expect(named(after.cycles)).toEqual([["S!C1", "S!C2", "S!D3"]]);
    expect(after.notes.map(({ row, column, kind }) => [row, column, kind])).toEqual(
      expect.arrayContaining([
        [0, 2, "left-as-it-was"],
        [1, 2, "left-as-it-was"],
        [2, 3, "left-as-it-was"],
        [0, 4, "left-as-it-was"],
      ]),
    );
    expect(after.notes.find(({ column }) => column === 4)?.message).toContain("depends on S!C1");
  });

  test.each([
    ["that ours are no part of", { C1: plain("C2+1", 1), C2: plain("C1", 1) }, []],
    [
      "that ours need",
      { C1: plain("C2+1", 1), C2: plain("C1", 1), D1: "=GYLE.DOUBLE(C1)" },
      ["stored-value-used"],
    ],
    ["that ours feed", { C1: plain("C2+A1", 1), C2: plain("C1", 1) }, ["left-as-it-was", "left-as-it-was"]],
  ])("%s is left alone, and ours are calculated", (_, cells, kinds) => {
    const after = calculated(workbook({ S: { A1: "=GYLE.DOUBLE(1)", ...cells } }));
    expect([after.at("A1"), after.at("C1"), after.at("C2")]).toEqual([2, 1, 1]);
    if ("D1" in cells) expect(after.at("D1")).toBe(2);
    expect(after.notes.map(({ kind }) => kind)).toEqual(kinds);
    expect(after.cycles).toEqual([]);
  });

  test.each([
    ["of a cell with itself", { A1: "=GYLE.DOUBLE(A1)" }, ["S!A1"]],
    ["through a range", { A5: "=GYLE.DOUBLE(SUM(A1:A9))" }, ["S!A5"]],
    ["through a whole column", { B2: "=SUM(B:B)+GYLE.DOUBLE(1)" }, ["S!B2"]],
    ["through two ranges", { A1: "=GYLE.DOUBLE(SUM(B1:B9))", B5: "=SUM(A1:A2)" }, ["S!A1", "S!B5"]],
  ])("%s is found", (_, sheet, expected) => {
    const after = calculated(workbook({ S: sheet }));
    expect(named(after.cycles)).toEqual([expected]);
  });

  test("through another sheet and a dynamic array is found", () => {
    const after = calculated(
      workbook({
        S: {
          A1: {
            formula: {
              text: "GYLE.GROW(Other!A1)",
              kind: "spill",
              area: { top: 0, left: 0, bottom: 2, right: 0 },
            },
            stored: 1,
          },
        },
        Other: { A1: "=S!A3" },
      }),
    );
    expect(named(after.cycles)).toEqual([["S!A1", "Other!A1"]]);
  });

  test("that shows only when INDIRECT is evaluated never settles: its stored values stay, and that is told", () => {
    const after = calculated(
      workbook({ S: { A1: plain('GYLE.DOUBLE(INDIRECT("B1"))', 4), B1: plain("A1+1", 2) } }),
    );
    expect([after.at("A1"), after.at("B1")]).toEqual([4, 2]);
    expect(after.notes.map(({ kind }) => kind)).toContain("left-as-it-was");
  });

  test("is none where a cell asks only for its own row or its neighbours", () => {
    const after = calculated(
      workbook({
        S: { A2: "=ROW(A2)+GYLE.DOUBLE(1)", B2: "=SUM(B1:B1,B3:B9)+A2", C2: "=COLUMNS(A2:C2)+A2" },
      }),
    );
    expect(after.cycles).toEqual([]);
    expect([after.at("A2"), after.at("C2")]).toEqual([4, 7]);
  });
});

describe("where the workbook lets circular references iterate", () => {
  test("a circular reference that depends on ours is left as it was, and reported", () => {
    const after = calculated(
      workbook(
        { S: { A1: "=GYLE.DOUBLE(1)", B1: plain("C1+A1", 1), C1: plain("B1/2", 1) } },
        { iterates: true },
      ),
    );
    expect(after.cycles).toEqual([]);
    expect([after.at("A1"), after.at("B1"), after.at("C1")]).toEqual([2, 1, 1]);
    expect(after.notes.map(({ kind }) => kind)).toEqual(["left-as-it-was", "left-as-it-was"]);
  });

  test("a circular reference elsewhere is left alone, and one that ours need counts with its stored values", () => {
    const after = calculated(
      workbook(
        {
          S: {
            A1: "=GYLE.DOUBLE(B1)",
            B1: plain("C1/2", 8),
            C1: plain("B1*2", 16),
            E1: plain("F1", 1),
            F1: plain("E1", 1),
          },
        },
        { iterates: true },
      ),
    );
    expect(after.cycles).toEqual([]);
    expect(after.at("A1")).toBe(16);
    expect(after.notes.map(({ row, column, kind }) => [row, column, kind])).toEqual([
      [0, 1, "stored-value-used"],
    ]);
  });
});

test("cycles are found exactly where they are, for any references", () => {
  const cells = 8;
  const formulas = fc.array(fc.array(fc.tuple(fc.nat(cells - 1), fc.nat(cells - 1)), { maxLength: 2 }), {
    minLength: cells,
    maxLength: cells,
  });
  fc.assert(
    fc.property(formulas, (ranges) => {
      const text = (reads: [number, number][]): string =>
        `GYLE.DOUBLE(1)${reads.map(([a, b]) => `+SUM(A${Math.min(a, b) + 1}:A${Math.max(a, b) + 1})`).join("")}`;
      const sheet = Object.fromEntries(ranges.map((reads, i) => [`A${i + 1}`, plain(text(reads), 0)]));
      const reads = (i: number): Set<number> =>
        new Set(
          (ranges[i] ?? []).flatMap(([a, b]) =>
            Array.from({ length: Math.abs(a - b) + 1 }, (_, k) => Math.min(a, b) + k),
          ),
        );
      // By repeated removal of cells that read nothing that is left.
      const left = new Set(ranges.keys());
      for (let removed = true; removed;) {
        removed = false;
        for (const i of left) {
          if ([...reads(i)].every((j) => !left.has(j))) {
            left.delete(i);
            removed = true;
          }
        }
      }
      const after = calculated(workbook({ S: sheet }));
      expect(after.cycles.length > 0).toBe(left.size > 0);
      for (const cycle of after.cycles) {
        cycle.forEach(({ row }, k) => {
          expect(reads(row)).toContain(cycle[(k + 1) % cycle.length]?.row);
        });
      }
      if (left.size === 0) {
        const value = (i: number): number =>
          2 +
          (ranges[i] ?? []).reduce((sum, [a, b]) => {
            for (let j = Math.min(a, b); j <= Math.max(a, b); j++) sum += value(j);
            return sum;
          }, 0);
        for (const i of ranges.keys()) expect(after.at(`A${i + 1}`)).toBe(value(i));
      }
    }),
    { numRuns: 150 },
  );
});
