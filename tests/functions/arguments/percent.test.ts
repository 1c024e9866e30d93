import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { catalogue } from "../../../src/functions/catalogue.js";
import { column, error, number } from "../../support/cells.js";

/** Every place where percent are meant, with all else as it should be. */
const places: Readonly<Record<string, (percent: number) => readonly [name: string, ...args: unknown[]]>> = {
  "FINAL.EXPECTED attenuation": (x) => ["FINAL.EXPECTED", 1.048, x],
  "FINAL.EXPECTED attenuation beside °P": (x) => ["FINAL.EXPECTED", 12, x, "P"],
  "EXTRACT.POTENTIAL yields": (x) => ["EXTRACT.POTENTIAL", column(5, 1), column(80, x)],
  "EFFICIENCY yields": (x) => ["EFFICIENCY", 2, 1.01, column(5, 1), column(80, x), "PCT"],
  "FORTIFY yield": (x) => ["FORTIFY", 30, 1.036, 1.037, x],
};

describe.each(Object.entries(places))("%s", (_, args) => {
  test("is taken as a number of percent", () => {
    expect(number(...args(75))).toBeGreaterThan(0);
  });

  test("is never taken from a cell that is formatted as a percentage", () => {
    expect(error(...args(0.75))).toMatch(
      /is 0\.75, but percent are meant here\. 75 % in a cell is 0\.75: write 75 or multiply by 100\.$/,
    );
    expect(error(...args(1))).toMatch(/100 % in a cell is 1: write 100 or multiply by 100/);
    expect(error(...args(0.07))).toMatch(/ 7 % in a cell is 0\.07: write 7 or/);
  });

  test("gives no number for anything below 1.5", () => {
    const share = fc.oneof(
      fc.double({ max: 1.499_999, noNaN: true }),
      fc.double({ min: 0, max: 1.499_999, noNaN: true }),
    );
    fc.assert(
      fc.property(share, (x) => {
        expect(number(...args(x))).toBeNaN();
      }),
      { numRuns: 200 },
    );
  });
});

test("a row is named where the share stands in a list", () => {
  expect(error("EXTRACT.POTENTIAL", column(5, 1), column(80, 0.8))).toMatch(
    /^#VALUE! Row 2: The yield is 0\.8, but/,
  );
});

describe("a yield in another unit", () => {
  test("is no percentage", () => {
    expect(error("EXTRACT.POTENTIAL", 5, 0.8, "PPG")).toMatch(
      /The yield is 0\.8 points·gal\/lb, less than any fermentable gives\. If 80 % is meant, write 80 with "PCT" as yield unit/,
    );
    expect(error("FORTIFY", 30, 1.036, 1.04, 0.8, "LDK")).toMatch(/If 80 % is meant/);
  });

  test("is no gravity", () => {
    expect(error("EFFICIENCY", 5, 1.05, 10, 1.037, "PPG")).toMatch(
      /If that is a gravity, write its points: 37\./,
    );
  });
});

test("an addition of 0 % is not pure sugar, and an empty yield still is", () => {
  const sugar = number("FORTIFY", 30, 1.036, 1.04);
  for (const empty of [null, undefined, "", " "])
    expect(number("FORTIFY", 30, 1.036, 1.04, empty)).toBe(sugar);
  for (const unit of ["PCT", "LDK", "PPG"])
    expect(error("FORTIFY", 30, 1.036, 1.04, 0, unit)).toMatch(
      /The yield is 0 or an empty cell, which cannot be told apart here\. For pure sugar leave the argument out, or write 100 \(%\)\./,
    );
});

test("every argument in percent is among these places", () => {
  const inPercent = catalogue.flatMap(({ name, parameters }) =>
    parameters
      .filter(
        ({ description, choices }) =>
          choices.length === 0 && /%/.test(description) && !/gravity/.test(description),
      )
      .map((parameter) => `${name} ${parameter.name}`),
  );
  expect(inPercent.sort()).toEqual(
    Object.keys(places)
      .filter((place) => !place.includes("beside"))
      .sort(),
  );
});
