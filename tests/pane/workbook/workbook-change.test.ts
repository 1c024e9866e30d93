import { expect, test } from "vitest";
import type { InstrumentSet } from "../../../src/instruments/set.js";
import type { Host } from "../../../src/pane/ports.js";
import type { OurFormula } from "../../../src/pane/ports/formulas-port.js";
import { significanceOf, type ShownValue } from "../../../src/changes/changed-cell.js";
import { functionChanges, workbookChange } from "../../../src/pane/workbook/workbook-change.js";

const formula = (address: string, ...instruments: string[]): OurFormula => ({
  sheet: "Log",
  address,
  formula: `=GYLE.${address}()`,
  // C1 shows what its call gives, D1 something else.
  value: address === "C1" ? 1.05 : 0,
  instruments,
  anyInstrument: address === "E1",
});

const before: InstrumentSet = { version: 1, instruments: [] };
const after: InstrumentSet = { ...before };
const error = (message: string): ShownValue => ({ code: "#VALUE!", message });

/** Results before and after, by the cell of the formula that calls; a formula that is missing cannot be looked at. */
const results: Readonly<Record<string, readonly [ShownValue[][], ShownValue[][]]>> = {
  B2: [
    [[1.01], [1.02], ["x"]],
    [[1.012], [1.02 + 1e-12], ["x"]],
  ],
  C1: [[[1.05]], [[error("Off the scale.")]]],
  D1: [[[error("Off the scale.")]], [[error("Off the scale.")]]],
  E1: [[[5]], [[4.5, 7]]],
};

const host = (calls: OurFormula[][], unsure: string[] = []): Host =>
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
          some.map(({ address }) =>
            address in results
              ? { name: address, args: [], isWhole: !["C1", "D1"].includes(address) }
              : undefined,
          ),
        );
      },
    },
    functions: {
      evaluate: (name: string, _args: unknown, set: InstrumentSet) =>
        results[name]?.[set === before ? 0 : 1] ?? [],
      // Of B2 it is known how sure it is.
      plusMinus: (name: string) => {
        unsure.push(name);
        return name === "B2" ? [[0.001], [0.001], [0]] : undefined;
      },
    },
  }) as unknown as Host;

const work = { signal: new AbortController().signal, onProgress: () => undefined };

test("cells that would show something else are found in spilled results too, and counted by function", async () => {
  const calls: OurFormula[][] = [];
  const change = await workbookChange(host(calls), before, after, ["glass"], work);
  expect(calls.flat().map(({ address }) => address)).toEqual(["B2", "C1", "D1", "F1", "E1"]);
  expect(change.looked).toBe(3);
  expect(change.unseen.map(({ address }) => address)).toEqual(["D1", "F1"]);
  expect(change.changed).toEqual([
    { sheet: "Log", address: "B2", by: "B2", before: 1.01, after: 1.012, plusMinus: 0.001 },
    { sheet: "Log", address: "C1", by: "C1", before: 1.05, after: error("Off the scale.") },
    { sheet: "Log", address: "E1", by: "E1", before: 5, after: 4.5 },
    { sheet: "Log", address: "F1", by: "E1", before: undefined, after: 7 },
  ]);
  expect(change.changed.map(significanceOf)).toEqual(["beyond", "beyond", "unknown", "beyond"]);
  const functions = functionChanges(change.changed);
  expect(functions).toMatchObject([
    { name: "B2", cells: 1 },
    { name: "C1", cells: 1, most: undefined },
    { name: "E1", cells: 2, most: 0.5 },
  ]);
  expect(functions[0]?.most).toBeCloseTo(0.002, 12);
});

test("how sure a result is is not worked out where nothing changed", async () => {
  const asked: string[] = [];
  expect((await workbookChange(host([], asked), before, before, ["glass"], work)).changed).toEqual([]);
  expect(asked).toEqual([]);
  await workbookChange(host([], asked), before, after, ["glass"], work);
  expect(asked).toEqual(["B2", "C1", "E1"]);
});

test("it stops when it is told to", async () => {
  const stop = new AbortController();
  stop.abort(new Error("Stopped."));
  await expect(
    workbookChange(host([]), before, after, ["glass"], { ...work, signal: stop.signal }),
  ).rejects.toThrow("Stopped.");
});
