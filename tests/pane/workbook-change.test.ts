import { expect, test } from "vitest";
import type { InstrumentSet } from "../../src/instruments/set.js";
import type { CellResult, Host, OurFormula } from "../../src/pane/ports.js";
import { workbookChange } from "../../src/pane/workbook-change.js";

const formula = (address: string, ...instruments: string[]): OurFormula => ({
  sheet: "Log",
  address,
  formula: `=GYLE.${address}()`,
  value: 0,
  instruments,
  anyInstrument: address === "E1",
});

const before: InstrumentSet = { version: 1, instruments: [] };
const after: InstrumentSet = { ...before };
const error = (message: string): CellResult => ({ code: "#VALUE!", message });

/** Results before and after, by the cell of the formula that calls; a formula that is missing cannot be looked at. */
const results: Readonly<Record<string, readonly [CellResult[][], CellResult[][]]>> = {
  B2: [
    [[1.01], [1.02], ["x"]],
    [[1.012], [1.02 + 1e-12], ["x"]],
  ],
  C1: [[[1.05]], [[error("Off the scale.")]]],
  D1: [[[error("Off the scale.")]], [[error("Off the scale.")]]],
  E1: [[[5]], [[4.5, 7]]],
};

const host = (calls: OurFormula[][]): Host =>
  ({
    formulas: {
      find: () =>
        Promise.resolve(
          ["B2", "C1", "D1", "F1"]
            .map((at) => formula(at, "Glass"))
            .concat(formula("E1"), formula("G1", "Other")),
        ),
      calls: (some: OurFormula[]) => {
        calls.push(some);
        return Promise.resolve(
          some.map(({ address }) => (address in results ? { name: address, args: [] } : undefined)),
        );
      },
    },
    functions: {
      evaluate: (name: string, _args: unknown, set: InstrumentSet) =>
        results[name]?.[set === before ? 0 : 1] ?? [],
    },
  }) as unknown as Host;

const work = { signal: new AbortController().signal, onProgress: () => undefined };

test("cells that would show something else are found in spilled results too, and counted by function", async () => {
  const calls: OurFormula[][] = [];
  const change = await workbookChange(host(calls), before, after, "glass", work);
  expect(calls.flat().map(({ address }) => address)).toEqual(["B2", "C1", "D1", "F1", "E1"]);
  expect(change.looked).toBe(4);
  expect(change.unseen.map(({ address }) => address)).toEqual(["F1"]);
  expect(change.changed).toEqual([
    { sheet: "Log", address: "B2", now: 1.01, then: 1.012 },
    { sheet: "Log", address: "C1", now: 1.05, then: error("Off the scale.") },
    { sheet: "Log", address: "E1", now: 5, then: 4.5 },
    { sheet: "Log", address: "F1", now: undefined, then: 7 },
  ]);
  expect(change.functions).toMatchObject([
    { name: "B2", cells: 1 },
    { name: "C1", cells: 1, most: undefined },
    { name: "E1", cells: 2, most: 0.5 },
  ]);
  expect(change.functions[0]?.most).toBeCloseTo(0.002, 12);
});

test("it stops when it is told to", async () => {
  const stop = new AbortController();
  stop.abort(new Error("Stopped."));
  await expect(
    workbookChange(host([]), before, after, "glass", { ...work, signal: stop.signal }),
  ).rejects.toThrow("Stopped.");
});
