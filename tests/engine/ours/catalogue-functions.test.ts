import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import type { ReadArgument } from "../../../src/engine/ours/argument.js";
import { callFunction } from "../../../src/engine/ours/call-function.js";
import { catalogueFunctions } from "../../../src/engine/ours/catalogue-functions.js";
import type { CellFunctions } from "../../../src/engine/ours/cell-functions.js";
import { FormulaError, Values, type FormulaValue, type Scalar } from "../../../src/engine/values.js";
import { useInstruments } from "../../../src/functions/contract/instruments-port.js";
import { built } from "../../e2e/browser.js";
import { hostileArguments } from "../../e2e/hostile-cells.js";
import { instruments } from "../../support/instruments.js";
import { loadFunctions } from "../../support/functions-bundle.js";

// recalc calls the functions where they are; Excel and the desk call the bundle that ships, through the host's objects. Whatever
// stands in cells, both must come to the same.

const direct = catalogueFunctions();
let bundled: CellFunctions;

beforeAll(() => {
  const bundle = loadFunctions(built("").pathname);
  bundled = bundle.functions;
  bundle.useInstruments(instruments);
  useInstruments(instruments);
});

const codes = [
  "#VALUE!",
  "#N/A",
  "#DIV/0!",
  "#NUM!",
  "#NULL!",
  "#REF!",
  "#NAME?",
  "#SPILL!",
  "#GETTING_DATA",
  "#BUSY!",
];

/** What can stand in a cell of a workbook, of whatever a host could send. */
function scalarOf(raw: unknown): Scalar {
  if (raw === undefined || raw === null) return null;
  if (typeof raw === "number") return Number.isFinite(raw) ? raw : new FormulaError("#NUM!");
  if (typeof raw === "string" || typeof raw === "boolean") return raw;
  if (typeof raw === "object" && "code" in raw && typeof raw.code === "string")
    return new FormulaError(codes.includes(raw.code) ? raw.code : "#VALUE!", "from another cell");
  return new FormulaError(codes[JSON.stringify(raw).length % codes.length] ?? "#N/A");
}

function argumentOf(raw: unknown): ReadArgument {
  if (!Array.isArray(raw)) return raw === undefined ? undefined : scalarOf(raw);
  const rows = raw.map((row: unknown) => (Array.isArray(row) ? row.map(scalarOf) : [scalarOf(row)]));
  const width = Math.max(1, ...rows.map((row) => row.length));
  const whole = rows.map((row) => [...row, ...Array<Scalar>(width - row.length).fill(null)]);
  return new Values(whole.length === 0 ? [[null]] : whole);
}

const told = (outcome: FormulaValue | Promise<FormulaValue>): unknown => {
  if (outcome instanceof Promise) throw new Error("it waits");
  return outcome instanceof Values ? outcome.rows : outcome;
};

/** To the last bit, with the same words. */
function expectAlike(name: string, args: readonly ReadArgument[]): void {
  const [one, other] = [direct.find(name), bundled.find(name)];
  if (!one || !other) throw new Error(`${name} is missing`);
  expect(told(callFunction(one, args))).toStrictEqual(told(callFunction(other, args)));
}

test("both have the same functions, with as many arguments", () => {
  const shape = ({ all }: CellFunctions) =>
    all.map(({ name, stored, fewest, most }) => ({ name, stored, fewest, most }));
  expect(shape(direct)).toEqual(shape(bundled));
  expect(direct.all.length).toBeGreaterThan(30);
});

// What is passed on as it is must be declared to be taken so.
test("all arguments are ranges of anything, errors included", () => {
  for (const { declared, takesErrors } of bundled.all) {
    expect(takesErrors).toBe(true);
    for (const { type, dimensionality, repeating } of declared.parameters)
      expect([type, dimensionality, repeating]).toEqual(["any", "matrix", undefined]);
  }
});

const plausible = fc.oneof(
  fc.double({ min: 0.98, max: 1.14, noNaN: true }),
  fc.double({ min: 0, max: 100, noNaN: true }),
  fc.constantFrom<unknown>(
    0,
    null,
    "",
    "SG",
    "P",
    "l",
    "gal",
    "RULE",
    "Pocket prism",
    "Starting glass",
    "nobody's",
    1048,
  ),
);
const plausibleArguments = fc.array(
  fc.oneof(
    plausible,
    fc.array(fc.array(plausible, { minLength: 2, maxLength: 2 }), { minLength: 1, maxLength: 4 }),
  ),
  { minLength: 1, maxLength: 7 },
);

describe.each(direct.all.map(({ name }) => name))("%s", (name) => {
  test("comes to the same both ways, given hostile cells", () => {
    fc.assert(
      fc.property(hostileArguments, (args) => {
        expectAlike(name, args.map(argumentOf));
      }),
      { numRuns: 150, seed: 14 },
    );
  });

  test("comes to the same both ways, given likely cells", () => {
    fc.assert(
      fc.property(plausibleArguments, (args) => {
        expectAlike(name, args.map(argumentOf));
      }),
      { numRuns: 150, seed: 15 },
    );
  });
});

test("what was looked for in vain is told by both", () => {
  const bundle = loadFunctions(built("").pathname);
  bundle.useInstruments(instruments);
  for (const functions of [direct, bundle.functions]) {
    functions.instrumentsInVain();
    const fn = functions.find("GYLE.HYDROMETER");
    if (!fn) throw new Error("no HYDROMETER");
    told(callFunction(fn, [1.05, 20, "nobody's"]));
    expect(functions.instrumentsInVain()).toEqual(["nobody's"]);
    expect(functions.instrumentsInVain()).toEqual([]);
  }
});
