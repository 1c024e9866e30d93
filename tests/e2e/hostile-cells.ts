// Cells that nobody means well with, as they can come through JSON.
import fc from "fast-check";

const text = fc.oneof(
  fc.constantFrom(
    "",
    " ",
    "\u0000",
    "=1+1",
    '=HYPERLINK("https://example.org")',
    "@SUM(A1)",
    "<img src=x onerror=alert(1)>",
    "</script><script>alert(1)</script>",
    "__proto__",
    "constructor",
    "null",
    "NaN",
    "#VALUE!",
    "١٫٠٤٨",
    "\u202e1.048",
    "שלום 1.048",
    "🍺".repeat(5000),
    `x${"🍺".repeat(5000)}`,
    "\u0065\u0301".repeat(100),
    "x".repeat(10_000),
    '"'.repeat(10_000),
    "1".repeat(10_000),
    "1 ".repeat(5_000),
  ),
  fc.string({ unit: "binary", maxLength: 60 }),
  fc.string({ unit: "grapheme", maxLength: 60 }),
);

const number = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: 0.97, max: 1.14, noNaN: true }),
  fc.double({ min: -5, max: 110, noNaN: true }),
  fc.constantFrom(0, -0, 5e-324, 1.7e308, -1.7e308, 1e21, 1048, 2 ** 53),
);

const word = fc.constantFrom("P", "SG", "BX", "F", "gal", "PPG", "RULE", "SUMMARY", "bobber", "Brass prism");

const plain = fc.oneof(number, text, word, fc.boolean(), fc.constant(null));

const object = fc.oneof(
  fc.record({
    type: fc.constantFrom("Double", "FormattedNumber", "Entity", "Error", "String"),
    basicValue: plain,
  }),
  fc.record({
    type: fc.constant("CustomFunctionError"),
    code: fc.constantFrom("#DIV/0!", "#REF!", "#SPILL!", "", "#"),
  }),
  fc.record({ type: fc.constant("Entity"), text, properties: fc.dictionary(text, plain, { maxKeys: 3 }) }),
  fc.dictionary(text, plain, { maxKeys: 3 }),
);

const cell = fc.oneof({ weight: 5, arbitrary: plain }, { weight: 1, arbitrary: object });

/** Rows of any length, also none, and rows that are cells. */
const ragged = fc.array(fc.oneof(fc.array(cell, { maxLength: 4 }), cell), { maxLength: 4 });

const rectangle = fc
  .integer({ min: 1, max: 3 })
  .chain((columns) =>
    fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), { minLength: 1, maxLength: 3 }),
  );

/** A list of arguments that is no longer than some function has. */
export const hostileArguments: fc.Arbitrary<unknown[]> = fc.array(fc.oneof(cell, rectangle, ragged), {
  maxLength: 7,
});
