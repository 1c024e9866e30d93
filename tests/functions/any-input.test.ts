import fc from "fast-check";
import { expect, test } from "vitest";
import { call } from "../../src/functions/call.js";
import { catalogue } from "../../src/functions/catalogue.js";
import { CellError, type Result } from "../../src/functions/cell-value.js";
import { useInstruments } from "../../src/functions/instruments-port.js";
import { instruments } from "../support/instruments.js";

useInstruments(instruments);

const names = instruments.instruments.map((instrument) => instrument.name);

const anyCell = fc.oneof(
  { weight: 4, arbitrary: fc.double() },
  { weight: 4, arbitrary: fc.double({ min: -5, max: 120, noNaN: true }) },
  { weight: 4, arbitrary: fc.double({ min: 0.97, max: 1.14, noNaN: true }) },
  { weight: 2, arbitrary: fc.double({ min: 970, max: 1140, noNaN: true }) },
  { weight: 1, arbitrary: fc.constantFrom(NaN, Infinity, -Infinity, 0, -0, 5e-324, 1.7e308) },
  { weight: 2, arbitrary: fc.constantFrom(null, undefined, "", " ", true, false) },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      "P",
      "SG",
      "C",
      "F",
      "l",
      "gal",
      "PCT",
      "PPG",
      "RULE",
      "1,052",
      "n/a",
      ...names,
    ),
  },
  { weight: 1, arbitrary: fc.string({ unit: "binary" }) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      { code: "#DIV/0!" },
      { code: "#REF!" },
      { code: 5 },
      { type: "Error", basicValue: "#N/A" },
    ),
  },
  { weight: 1, arbitrary: fc.anything() },
);

const anyMatrix = fc
  .tuple(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 3 }))
  .chain(([rows, columns]) =>
    fc.array(fc.array(anyCell, { minLength: columns, maxLength: columns }), {
      minLength: rows,
      maxLength: rows,
    }),
  );

function sound(result: Result): boolean {
  if (typeof result === "number") return Number.isFinite(result);
  if (result instanceof CellError) return result.message.length > 0;
  return typeof result === "string" || typeof result === "boolean";
}

for (const spec of catalogue)
  test(`${spec.name} turns any input into finite numbers, text, blanks or errors with a message`, async () => {
    const anyArguments = fc.array(fc.oneof(anyCell, anyMatrix), { maxLength: spec.parameters.length + 2 });
    await fc.assert(
      fc.asyncProperty(anyArguments, async (args) => {
        const results = await call(spec, args);
        expect(results.length).toBeGreaterThan(0);
        expect(new Set(results.map((row) => row.length)).size).toBe(1); // a rectangle
        expect(results.flat().filter((result) => !sound(result))).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });
