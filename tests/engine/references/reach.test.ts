import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { areaOf, calculated, plain, type SheetSketch, workbook } from "../workbooks.js";

// Workbooks of sums, whose values and reads the test works out itself: cell i may only read cells before it. Ours are
// stored with three times their argument and come to twice that now; some stored values are wrong.

const inputs = 6;
const count = 26;
const sheetOf = (i: number): string => `S${i % 2}`;
const rowOf = (i: number): number => Math.floor(i / 2) + 1;
const at = (i: number): string => `${sheetOf(i)}!A${rowOf(i)}`;
type Values = (i: number) => number;

/** A part of a formula: its text, the cells that it may read as things are, and its value. */
interface Part {
  readonly text: string;
  readonly needs: (value: Values) => readonly number[];
  readonly value: (value: Values) => number;
}

const sum = (text: string, cells: readonly number[]): Part => ({
  text,
  needs: () => cells,
  value: (value) => cells.reduce((total, i) => total + value(i), 0),
});

/** Cells of one column from one to another. */
const stretch = (from: number, to: number): number[] =>
  Array.from({ length: Math.floor(Math.abs(to - from) / 2) + 1 }, (_, k) => Math.min(from, to) + 2 * k);

function partOf([kind, a, b, c]: readonly [number, number, number, number], before: number): Part {
  const i = a % before;
  const k = b % before;
  const end = (k % 2 === i % 2 ? k : k === 0 ? 1 : k - 1) % before;
  const same = end % 2 === i % 2 ? end : i;
  const cells = stretch(i, same);
  const [low = i] = cells;
  const range = `${at(low)}:A${rowOf(cells.at(-1) ?? low)}`;
  const first = i % 2;
  switch (kind) {
    case 0:
      return sum(at(i), [i]);
    case 1:
      return sum(`SUM(${range})`, cells);
    case 2:
      return sum(`INDIRECT("${at(i)}")`, [i]);
    case 3:
      return sum(`SUM(INDIRECT("${range}"))`, cells);
    case 4:
      return sum(`INDIRECT("${sheetOf(i)}!R"&${rowOf(i)}&"C1",FALSE)`, [i]);
    case 5:
      return sum(`OFFSET(${at(first)},${rowOf(i) - 1},0)`, [i]);
    case 6:
      return sum(`SUM(OFFSET(${at(first)},${rowOf(low) - 1},0,${cells.length},1))`, cells);
    case 7: {
      const chosen = cells[c % cells.length] ?? i;
      return {
        text: `INDEX(${range},${(c % cells.length) + 1})`,
        needs: () => cells,
        value: (value) => value(chosen),
      };
    }
    case 8:
      return {
        text: `CHOOSE(${(c % 2) + 1},${at(i)},${at(k)})`,
        needs: () => [i, k],
        value: (value) => value([i, k][c % 2] ?? i),
      };
    case 9: {
      // Which cell is read hangs on the value of another.
      const target = (value: Values): number => (value(i) % 3) * 2;
      return {
        text: `OFFSET(S0!A1,MOD(${at(i)},3),0)`,
        needs: (value) => [i, target(value)],
        value: (value) => value(target(value)),
      };
    }
    case 10: {
      const target = (value: Values): number => (value(i) % 3) * 2 + 1;
      return {
        text: `INDIRECT("S1!A"&MOD(${at(i)},3)+1)`,
        needs: (value) => [i, target(value)],
        value: (value) => value(target(value)),
      };
    }
    case 11:
      return sum(
        ["SUM(Few)", 'SUM(INDIRECT("Few"))', "SUM(T[x])", 'SUM(INDIRECT("T[x]"))'][c % 4] ?? "",
        [0, 2, 4],
      );
    default:
      return sum(`SUM(${at(low)}:INDEX(${sheetOf(i)}!A:A,${rowOf(cells.at(-1) ?? low)}))`, cells);
  }
}

const parts = fc.array(fc.tuple(fc.nat(12), fc.nat(999), fc.nat(999), fc.nat(999)), {
  minLength: 1,
  maxLength: 2,
});
const cell = fc.record({ parts, own: fc.boolean(), other: fc.boolean(), wrong: fc.nat(7) });

test("no cell changes that ours do not reach or that cannot be proven, and every other one that they reach does", () => {
  fc.assert(
    fc.property(
      fc.array(cell, { minLength: count, maxLength: count }),
      fc.array(fc.nat(9), { minLength: inputs, maxLength: inputs }),
      (cells, given) => {
        const stored: number[] = [...given];
        const now: number[] = [...given];
        const states = given.map(() => ({ reached: false, moved: false, kept: false }));
        const sheets: Record<string, Record<string, SheetSketch[string]>> = { S0: {}, S1: {} };
        for (const [i, value] of given.entries()) (sheets[sheetOf(i)] ??= {})[`A${rowOf(i)}`] = value;
        const expected = new Map<string, number>();
        const kept = new Set<string>();
        for (const [n, each] of cells.entries()) {
          const i = inputs + n;
          // A third of the cells, so that there are books in which ours reach little.
          const own = each.own && each.other;
          const all = each.parts.map((part) => partOf(part, i));
          const total = (values: readonly number[]): number =>
            all.reduce((sumOfAll, part) => sumOfAll + part.value((j) => values[j] ?? 0), 0);
          const written = all.map(({ text }) => text).join("+");
          const proper = own ? 3 * total(stored) : total(stored);
          const wrong = each.wrong === 0 && !own;
          stored[i] = wrong ? proper + 1 : proper;
          (sheets[sheetOf(i)] ??= {})[`A${rowOf(i)}`] = plain(
            own ? `GYLE.DOUBLE(${written})` : written,
            stored[i],
          );
          const below = all.flatMap((part) => part.needs((j) => now[j] ?? 0)).map((j) => states[j]);
          const reached = own || below.some((state) => state?.reached);
          const stale = below.some((state) => state?.kept);
          const fresh = own ? 2 * total(now) : total(now);
          const stays = reached && (stale || wrong);
          now[i] = stays ? (stored[i] ?? 0) : fresh;
          const isOld = stale || (wrong && below.some((state) => state?.moved));
          states[i] = { reached, moved: now[i] !== stored[i], kept: reached && isOld };
          if (reached && now[i] !== stored[i]) expected.set(at(i), now[i] ?? 0);
          if (stays) kept.add(at(i));
        }
        const after = calculated(
          workbook(sheets, {
            names: [{ name: "Few", refersTo: "S0!$A$1:$A$3" }],
            tables: [
              { name: "T", sheet: "S0", area: areaOf("A1:A3"), headerRows: 0, totalsRows: 0, columns: ["x"] },
            ],
          }),
        );
        const changes = new Map(
          after.changes.map(({ sheet, row, value }) => [`${sheet}!A${row + 1}`, value]),
        );
        expect(Object.fromEntries(changes)).toEqual(Object.fromEntries(expected));
        const left = after.notes.filter(({ kind }) => kind === "left-as-it-was");
        expect(new Set(left.map(({ sheet, row }) => `${sheet}!A${row + 1}`))).toEqual(kept);
      },
    ),
    { numRuns: 200 },
  );
});

describe("what only looks like a circular reference", () => {
  test.each([
    ["a sheet of another workbook that is called the same", "[1]Log!B2+A1", "B2"],
    ["the name of the file", 'CELL("filename",B2)&A1', "B2"],
    ["the row it stands in", "ROW(B2)+ROW()+A1", "B2"],
    ["the columns up to it", "COLUMNS($A2:B2)+A1", "B2"],
    ["its sheet", "SHEET(B2)+A1", "B2"],
    ["whether it is a formula", "ISFORMULA(B2)+A1", "B2"],
    ["its text", "FORMULATEXT(B2)&A1", "B2"],
    ["its areas", "AREAS(B2)+A1", "B2"],
    ["whether it is a reference", "ISREF( B2 )+A1", "B2"],
    ["where it is found from", "OFFSET(B2,-1,-1)", "B2"],
    ["its own column in a range that it ends", "SUM(B$1:INDEX(B:B,ROW()-1))+A1", "B2"],
    ["a column of which it takes what is level with it", "Own*2+A1", "C2"],
  ])("%s, is none", (_, formula, address) => {
    const after = calculated(
      workbook(
        {
          Log: {
            A1: plain("GYLE.DOUBLE(2)", 4),
            A2: plain("GYLE.DOUBLE(A1)", 3),
            B1: 1,
            B2: 2,
            B3: address === "C2" ? plain("C2+1", 9) : 3,
            [address]: plain(formula, 7),
          },
        },
        { names: [{ name: "Own", refersTo: "Log!$B:$B" }] },
      ),
    );
    expect(after.cycles).toEqual([]);
    expect(after.at("A2")).toBe(8);
    expect(after.notes.filter(({ message }) => message.includes("circular"))).toEqual([]);
  });

  test("columns of a table, level with the formulas of a running sum", () => {
    const rows = [2, 3, 4];
    const after = calculated(
      workbook(
        {
          Log: {
            A1: "og",
            B1: "half",
            C1: "sum",
            ...Object.fromEntries(
              rows.flatMap((row, i) => [
                [`A${row}`, plain("GYLE.DOUBLE(10)", 10)],
                [`B${row}`, plain("T[og]/2", 5)],
                [`C${row}`, plain(row === 2 ? "T[[#This Row],[half]]" : `C${row - 1}+T[half]`, 5 * (i + 1))],
              ]),
            ),
          },
        },
        {
          tables: [
            {
              name: "T",
              sheet: "Log",
              area: areaOf("A1:C4"),
              headerRows: 1,
              totalsRows: 0,
              columns: ["og", "half", "sum"],
            },
          ],
        },
      ),
    );
    expect([after.at("B3"), after.at("C4"), after.notes, after.cycles]).toEqual([10, 30, [], []]);
  });
});
