import { parse } from "csv-parse/sync";
import { expect, test } from "vitest";
import { evaluate } from "../../../src/functions/evaluate.js";
import { plusMinus } from "../../../src/functions/uncertainty.js";
import { parseSet } from "../../../src/instruments/set.js";
import { significanceOf } from "../../../src/changes/changed-cell.js";
import { changesTable } from "../../../src/changes/changes-table.js";
import type { RawCells } from "../../../src/functions/contract/cell-value.js";
import type { Host } from "../../../src/pane/ports.js";
import type { Call, OurFormula } from "../../../src/pane/ports/formulas-port.js";
import { recalculateAll } from "../../../src/pane/workbook/recalculate-all.js";

// A glass whose scale stands two points low, and is graduated in whole points (invented).
const slipped = parseSet(
  JSON.stringify({
    version: 1,
    instruments: [
      {
        name: "Old glass",
        kind: "hydrometer",
        scale: "SG",
        temperatureUnit: "C",
        calibrationTemperature: 20,
        read: "level",
        division: 0.001,
        checks: [{ reading: 1.048, true: 1.05 }],
      },
    ],
  }),
);

interface Cell {
  readonly call: Call | undefined;
  /** What stood there: the first cell, and the cells that the formula fills. */
  readonly before: RawCells;
  /** How often it is asked for before it shows what it gives. */
  late?: number;
  /** What it makes of its call's result. */
  readonly shows?: number;
}

function host(cells: Record<string, Cell>, asked: string[] = []): Host {
  const shown: Record<string, RawCells> = Object.fromEntries(
    Object.entries(cells).map(([address, { before }]) => [address, before]),
  );
  let run = false;
  const settle = (): void => {
    for (const [address, cell] of Object.entries(cells)) {
      if (!run || !cell.call) continue;
      if ((cell.late ?? 0) > 0) cell.late = (cell.late ?? 0) - 1;
      else
        shown[address] =
          cell.shows === undefined ? evaluate(cell.call.name, cell.call.args, slipped) : [[cell.shows]];
    }
  };
  return {
    formulas: {
      find: () => {
        settle();
        return Promise.resolve(
          Object.keys(cells).map((address): OurFormula => ({
            sheet: "Log",
            address,
            formula: `=${address}`,
            value: shown[address]?.[0]?.[0],
            instruments: [],
            anyInstrument: false,
          })),
        );
      },
      calls: (some: OurFormula[]) => Promise.resolve(some.map(({ address }) => cells[address]?.call)),
      recalculate: (some: OurFormula[]) => {
        run = true;
        return Promise.resolve({ done: some.length, failed: [] });
      },
    },
    functions: { evaluate, plusMinus },
    selection: {
      at: (reference: string) => {
        asked.push(reference);
        const address = /!([A-Z]+\d+)/.exec(reference)?.[1] ?? "";
        return Promise.resolve({ reference, rows: shown[address] ?? [] });
      },
    },
  } as unknown as Host;
}

const work = { signal: new AbortController().signal, onProgress: () => undefined };
const glass = (readings: number[], temperature = 20): Call => ({
  name: "HYDROMETER",
  isWhole: true,
  args: [readings.map((reading) => [reading]), [[temperature]], [["Old glass"]]],
});

test("what changed by more than it is sure to is told from what changed by less", async () => {
  const [[fresh] = []] = evaluate("HYDROMETER", [[[1.046]], [[20]], [["Old glass"]]], slipped);
  const asked: string[] = [];
  const cells: Record<string, Cell> = {
    // As read before anyone knew of the two points.
    C2: { call: glass([1.046]), before: [[1.046]] },
    C3: { call: glass([1.046]), before: [[Number(fresh) - 0.0001]] },
    C4: { call: glass([1.046]), before: [[fresh]] },
    C5: { call: glass([1.046]), before: [["#N/A"]] },
    D2: { call: { name: "ABV", isWhole: true, args: [[[1.05]], [[1.01]]] }, before: [[5]] },
    E2: { call: glass([1.046, 1.03]), before: [[fresh], [1.03]] },
    F2: { call: undefined, before: [[7]] },
    // Guarded as IF(A2="","",…) does, and rounded.
    G2: { call: { ...glass([1.046]), isWhole: false }, before: [[1.046]] },
    H2: { call: { ...glass([1.046]), isWhole: false }, before: [[1.046]], shows: 1.05 },
  };
  const { changed, stuck, formulas } = await recalculateAll(host(cells, asked), slipped, work);
  expect(formulas).toBe(9);
  expect(stuck).toEqual([]);
  expect(changed.map((cell) => [cell.address, significanceOf(cell)])).toEqual([
    ["C2", "beyond"],
    ["C3", "within"],
    ["C5", "beyond"],
    ["D2", "unknown"],
    ["E3", "beyond"],
    ["G2", "beyond"],
    ["H2", "unknown"],
  ]);
  // The two points are there: the check point says so.
  expect(Number(changed[0]?.after) - 1.046).toBeCloseTo(0.002, 4);
  expect(asked.every((reference) => reference === "'Log'!E2:E3")).toBe(true);
});

test("results that come late are waited for, and those that never come are named", async () => {
  const cells: Record<string, Cell> = {
    C2: { call: glass([1.046]), before: [[1.046]], late: 1 },
    C3: { call: glass([1.046]), before: [[1.046]], late: Infinity },
  };
  const { changed, stuck } = await recalculateAll(host(cells), slipped, work);
  expect(changed.map(({ address }) => address)).toEqual(["C2"]);
  expect(stuck).toEqual([{ sheet: "Log", address: "C3" }]);
});

test("formulas that are to be left alone are not calculated, and not waited for", async () => {
  const cells: Record<string, Cell> = {
    C2: { call: glass([1.046]), before: [[1.046]] },
    C3: { call: glass([1.046]), before: [[1.046]], late: Infinity },
  };
  const keeps = (all: readonly OurFormula[]) => all.filter(({ address }) => address === "C3");
  const done = await recalculateAll(host(cells), slipped, work, keeps);
  expect(done.changed.map(({ address }) => address)).toEqual(["C2"]);
  expect(done.kept.map(({ address }) => address)).toEqual(["C3"]);
  expect([done.stuck, done.formulas]).toEqual([[], 1]);
});

test("it stops when it is told to, before anything is calculated", async () => {
  const stop = new AbortController();
  stop.abort(new Error("Stopped."));
  const cells = { C2: { call: glass([1.046]), before: [[1.046]] } };
  await expect(recalculateAll(host(cells), slipped, { ...work, signal: stop.signal })).rejects.toThrow(
    "Stopped.",
  );
});

test("the table of changes is read by others as it was meant, and calculates nothing", () => {
  const cell = { sheet: '=1+1, "x"', address: "C2", by: "HYDROMETER" };
  const table = changesTable([
    { ...cell, before: 1.046, after: 1.048, plusMinus: 0.00123 },
    { ...cell, before: -1, after: { code: "#N/A", message: "Not there." }, plusMinus: undefined },
  ]);
  expect(parse(table)).toEqual([
    ["Sheet", "Cell", "Function", "Before", "After", "Difference", "Sure to ±", "Changed by"],
    ['\'=1+1, "x"', "C2", "HYDROMETER", "1.046", "1.048", "0.002", "0.00123", "more than sure to"],
    ['\'=1+1, "x"', "C2", "HYDROMETER", "-1", "#N/A", "", "", "more than sure to"],
  ]);
});
