import fc from "fast-check";
import { expect, test } from "vitest";
import { isSameValue } from "../../../src/engine/native/compare.js";
import { firstSame } from "../../../src/engine/native/exact-search.js";
import { FormulaError, type Scalar } from "../../../src/engine/values.js";

const number = fc.oneof(
  fc.constantFrom(0, -0, 1, 0.3, 0.1 + 0.2, 1e300, -1e300, 5e-324, 2 ** 52 + 1, 2 ** 52),
  fc.integer({ min: -5, max: 5 }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
);
const text = fc.oneof(
  fc.constantFrom("", "a", "A", "ä", "Ä", "a\u0308", "\u00ad", "ß", "ss", "x y", "X Y", "3", "é", "E\u0301"),
  fc.string({ unit: "grapheme", maxLength: 3 }),
);
const value: fc.Arbitrary<Exclude<Scalar, FormulaError>> = fc.oneof(
  number,
  text,
  fc.boolean(),
  fc.constant(null),
);
const list: fc.Arbitrary<Scalar[]> = fc.array(fc.oneof(value, fc.constant(new FormulaError("#N/A"))), {
  maxLength: 30,
});

test("what is found in a list that is put in order is what is found by going through it", () => {
  fc.assert(
    fc.property(list, fc.array(value, { minLength: 12, maxLength: 20 }), (values, sought) => {
      const asked = [...sought, ...values.filter((each) => !(each instanceof FormulaError))];
      for (const each of asked as (string | number | boolean | null)[]) {
        const first = values.findIndex((held) => !(held instanceof FormulaError) && isSameValue(held, each));
        expect(firstSame(each, values)).toBe(first);
      }
    }),
    { numRuns: 1500 },
  );
});
