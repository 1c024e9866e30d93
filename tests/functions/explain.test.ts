// What a cell says of how it came about: told by the calculation itself, so it ends in the very number of the cell.
import { describe, expect, test } from "vitest";
import { catalogue } from "../../src/functions/catalogue.js";
import type { Result } from "../../src/functions/contract/cell-value.js";
import { evaluate } from "../../src/functions/evaluate.js";
import { explain } from "../../src/functions/explain.js";
import { workedExamples } from "../e2e/worked-examples.js";
import { errorText } from "../support/cells.js";
import { instruments } from "../support/instruments.js";
import { figure, reference } from "../support/reference.js";

const explained = (name: string, args: readonly unknown[], row = 0, column = 0) =>
  explain(name, args, row, column, instruments);
const whats = (name: string, args: readonly unknown[]): string[] =>
  explained(name, args).steps.map(({ what }) => what);
const valueOf = (name: string, args: readonly unknown[], what: string): number | undefined =>
  explained(name, args).steps.find((step) => step.what === what)?.value;

describe("the steps of every function", () => {
  // Not a calculation: it prints what a profile says.
  for (const { name } of catalogue.filter((spec) => spec.tell && spec.name !== "INSTRUMENT"))
    test(`${name} ends in the number of its cell`, () => {
      const args = workedExamples[name]?.args ?? [];
      const [results = []] = evaluate(name, args, instruments);
      for (const [column, expected] of results.entries()) {
        const { steps, result } = explained(name, args, 0, column);
        expect(result).toBe(expected);
        if (typeof expected === "number") expect(steps.at(-1)?.value).toBe(expected);
        for (const step of steps) {
          expect(step.what).toMatch(/^[a-z].*[a-z0-9 °C]$/);
          expect(Number.isFinite(step.value)).toBe(true);
        }
        expect(steps.some(({ source }) => source !== undefined)).toBe(true);
      }
    });
});

describe("HYDROMETER", () => {
  test("1.019 at the top of the meniscus stands at 1.020, and passes density and extract on its way", () => {
    const args = [1.019, 20, "Finishing glass"];
    expect(whats("HYDROMETER", args)).toEqual([
      "reading at the level surface",
      "density for which the scale is marked there",
      "growth of the glass",
      "density of the sample at its temperature",
      "extract",
      "gravity",
    ]);
    expect(valueOf("HYDROMETER", args, "reading at the level surface")).toBeCloseTo(1.02, 12);
    expect(valueOf("HYDROMETER", args, "growth of the glass")).toBe(1);
  });

  test("glass grows by 25e-6 per K (ISO 1768:1975)", () => {
    expect(valueOf("HYDROMETER", [1.046, 60], "growth of the glass")).toBeCloseTo(1 + 40 * 25e-6, 12);
  });

  test("check points are told where there are some", () => {
    expect(whats("HYDROMETER", [1.05, 60, "Old sixty"])).toContain("reading with the scale put right");
    expect(whats("HYDROMETER", [1.05, 60])).not.toContain("reading with the scale put right");
  });

  test("a warm sample is warned of, a cool one is not", () => {
    expect(explained("HYDROMETER", [1.046, 38]).warnings).toEqual([
      expect.stringMatching(/^The sample was at 38 °C\. Let it cool and read again/),
    ]);
    expect(explained("HYDROMETER", [1.046, 100, "Old sixty"]).warnings).toHaveLength(1);
    expect(explained("HYDROMETER", [1.046, 25]).warnings).toEqual([]);
  });

  test("what was given is listed as its arguments are called, without what is empty", () => {
    expect(explained("HYDROMETER", [[[1046], [1.04]], 25, null, "P"], 1).given).toEqual([
      { name: "reading", value: 1.04 },
      { name: "temperature", value: 25 },
      { name: "scale", value: "P" },
    ]);
  });
});

test("refraction: the 1936 table's correction is a step of its own", () => {
  const row = reference("refractive-tempcorr-1936").find(
    (each) => each["t_C"] === "25" && each["brix_read"] === "10",
  );
  const { steps } = explained("REFRACTOMETER.WORT", [10, 77, "Brass prism"]);
  const step = steps.find(({ what }) => what === "temperature correction");
  expect(step?.value).toBeCloseTo(figure(row, "add"), 9);
  expect(step?.source).toMatch(/1936/);
});

test("without an instrument a refractometer's factor is the customary one, and said to be", () => {
  const { steps, warnings } = explained("REFRACTOMETER.WORT", [12.48]);
  expect(steps.find(({ what }) => what === "wort correction factor")).toMatchObject({
    value: 1.04,
    source: "common practice, no standard",
  });
  expect(warnings).toEqual([expect.stringMatching(/customary 1\.04/)]);
  expect(explained("REFRACTOMETER.WORT", [12.48, null, "Pocket prism"]).warnings).toEqual([]);
});

test("a floating hydrometer outside its pairs is warned of", () => {
  expect(explained("FLOATING", [1.03, "Bobber"]).warnings).toEqual([]);
  expect(explained("FLOATING", [1.06, "Bobber"]).warnings).toEqual([
    expect.stringMatching(/outside the calibration pairs of this instrument \(1\.01 to 1\.05\)/),
  ]);
});

test("SEASON tells of each column what that column rests on", () => {
  const args = [[[1.048]], [[20]], [[1.012]], [[20]]];
  const at = (column: number) => explained("SEASON", args, 0, column).steps.map(({ what }) => what);
  expect(at(0)).not.toContain("final: gravity");
  expect(at(0).at(-1)).toBe("gravity");
  expect(at(2)).toEqual(expect.arrayContaining(["original: gravity", "final: gravity"]));
  expect(at(2).at(-1)).toBe("alcohol by volume at 20 °C");
  expect(at(4).at(-1)).toBe("real attenuation");
});

describe("a cell with an error", () => {
  const shown = (name: string, args: readonly unknown[], row = 0): Result =>
    explained(name, args, row).result;

  test("says what the cell says", () => {
    expect(errorText(shown("HYDROMETER", ["n/a", 20]))).toMatch(/^#VALUE! The reading is "n\/a": text/);
    expect(errorText(shown("ABV", [1.012, 1.048]))).toMatch(/Are they swapped\?$/);
    expect(explained("ABV", [1.012, 1.048]).given).toHaveLength(2);
  });

  test("says what is wrong with the arguments as a whole", () => {
    expect(
      errorText(
        shown(
          "ABV",
          [
            [[1.048], [1.05]],
            [[1.012], [1.01], [1.011]],
          ],
          1,
        ),
      ),
    ).toMatch(/^#VALUE! /);
  });

  test("names an error in a cell that it takes", () => {
    const { given, result } = explained("ABV", [[[{ code: "#N/A" }]], 1.01]);
    expect(given[0]).toEqual({ name: "original", value: "#N/A" });
    expect(errorText(result)).toMatch(/^#N\/A /);
  });
});

test("lists are given as so many cells", () => {
  const { given } = explained("BLEND", [
    [[10], [10]],
    [[1.056], [1.04]],
  ]);
  expect(given).toEqual([
    { name: "volumes", value: "2 cells" },
    { name: "gravities", value: "2 cells" },
  ]);
});

test("there is no explanation of a function that is not there", () => {
  expect(() => explained("NOSUCH", [])).toThrow(RangeError);
});

describe("how sure a result is", () => {
  const uncertainty = (name: string, args: readonly unknown[], row = 0) =>
    explained(name, args, row).uncertainty;

  test("is what the function says that is for it, in the same place", () => {
    const readings = [[1.046], [1.06]];
    expect(uncertainty("HYDROMETER", [readings, 27, null, "P"], 1)).toEqual({
      by: "PLUSMINUS.HYDROMETER",
      plusMinus: evaluate("PLUSMINUS.HYDROMETER", [1.06, 27, null, "P"], instruments)[0]?.[0],
    });
    expect(uncertainty("REFRACTOMETER.WORT", [12.48])?.plusMinus).toBe(
      evaluate("PLUSMINUS.REFRACTOMETER", [12.48], instruments)[0]?.[0],
    );
    expect(uncertainty("REFRACTOMETER.BEER", [6.4, 1.048])?.plusMinus).toBe(
      evaluate("PLUSMINUS.REFRACTOMETER", [6.4, 1.048], instruments)[0]?.[0],
    );
  });

  test("is not said where the instrument's profile lacks what it takes, and why", () => {
    const found = uncertainty("HYDROMETER", [1.01, 20, "Finishing glass"])?.plusMinus;
    expect(errorText(found)).toMatch(/neither a smallest division nor a maker's maximum error/);
  });

  test("is left open where it takes more, and for functions and errors that have none", () => {
    expect(uncertainty("ABV", [1.048, 1.012])).toEqual({ by: "PLUSMINUS.ABV", plusMinus: undefined });
    expect(uncertainty("BLEND", [[[10]], [[1.05]]])).toBeUndefined();
    expect(uncertainty("HYDROMETER", ["n/a", 20])).toBeUndefined();
  });
});
