// What the desk does with formulas that were found some time ago.
import { expect, test } from "vitest";
import type { BookCells } from "../../../src/desk/host/book-cells.js";
import { DeskFormulas } from "../../../src/desk/host/host-formulas.js";
import { ownFunctions } from "../../../src/formulas/own-calls.js";
import { catalogue } from "../../../src/functions/catalogue.js";
import type { OurFormula } from "../../../src/pane/ports/formulas-port.js";

const formula = (sheet: string, address: string): OurFormula => ({
  sheet,
  address,
  formula: '=GYLE.HYDROMETER(A2,B2,"Old glass")',
  value: 1.05,
  instruments: ["Old glass"],
  anyInstrument: false,
});

/** A sheet "Season" with a formula in C2, which counts what is done to it. */
function season() {
  const done = { calculated: 0, written: [] as string[] };
  const cells = {
    names: {
      sheet: () => undefined,
      defined: () => undefined,
      table: () => undefined,
      tableAt: () => undefined,
    },
    place: ({ sheet }: OurFormula) => (sheet === "Season" ? { sheet: 0, row: 1, column: 2 } : undefined),
    at: () => ({ value: 1.05, formula: 'GYLE.HYDROMETER(A2,B2,"Old glass")', style: undefined }),
    sheet: {
      recalculate: (places: unknown[]) => {
        done.calculated += places.length;
        return Promise.resolve();
      },
      write: (writes: { text: string }[]) => {
        done.written.push(...writes.map(({ text }) => text));
        return Promise.resolve();
      },
      settled: () => Promise.resolve(),
    },
  } as unknown as BookCells;
  const numbers = { ask: () => undefined, missingFor: () => undefined };
  const host = new DeskFormulas(cells, ownFunctions("GYLE", catalogue), numbers, () => undefined);
  return { host, done };
}

const work = { signal: new AbortController().signal, onProgress: () => undefined };
const [here, gone] = [formula("Season", "C2"), formula("Gone", "C3")];
const lost = [{ sheet: "Gone", address: "C3", why: expect.stringContaining('in a sheet "Gone"') as string }];

test("one whose place is not found is reported as failed, and the others are calculated", async () => {
  const { host, done } = season();
  expect(await host.recalculate([here, gone], work)).toEqual({ done: 1, failed: lost });
  expect(done.calculated).toBe(1);
});

test("renaming reports it too", async () => {
  const { host, done } = season();
  expect(await host.rename([gone, here], "Old glass", "New glass", work)).toEqual({ done: 1, failed: lost });
  expect(done.written).toEqual(['=GYLE.HYDROMETER(A2,B2,"New glass")']);
});

test("and going there says why nothing happens", async () => {
  await expect(season().host.show(gone)).rejects.toThrow('no cell C3 in a sheet "Gone"');
});
