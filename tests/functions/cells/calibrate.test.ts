import { beforeAll, describe, expect, test } from "vitest";
import { useInstruments } from "../../../src/functions/contract/instruments-port.js";
import { hydrometerMethods } from "../../../src/pane/calibration/hydrometer-methods.js";
import { refractometerMethods } from "../../../src/pane/calibration/refractometer-methods.js";
import { cell, column, error, number } from "../../support/cells.js";
import { instruments } from "../../support/instruments.js";
import { figure, reference } from "../../support/reference.js";

beforeAll(() => {
  useInstruments(instruments);
});

const plato = (brix: string): number =>
  figure(
    reference("plato-sg-nbs114-apparent").find((row) => row["brix"] === brix),
    "apparent_sg_20_20",
  );

describe("CALIBRATE.FACTOR", () => {
  const worts = column(plato("10.0"), plato("12.0"), plato("15.0"));

  test("is the usual °Bx over °P, with gravities as printed", () => {
    expect(number("CALIBRATE.FACTOR", column(10.2, 12.24, 15.3), worts)).toBeCloseTo(1.02, 3);
  });

  test("is not moved by a misread pair, and takes °P", () => {
    const factor = number("CALIBRATE.FACTOR", column(10.3, 14.9, 15.45), column(10, 12, 15), null, "P");
    expect(factor).toBeCloseTo(1.03, 12);
  });

  test("takes off what the instrument shows on water", () => {
    expect(number("CALIBRATE.FACTOR", column(10.3), column(10), "Pocket prism", "P")).toBeCloseTo(1.02, 12);
  });

  test("passes empty lines over, and is blank without pairs", () => {
    const readings = column(null, 10.3, 0);
    expect(number("CALIBRATE.FACTOR", readings, column(null, 10, null), null, "P")).toBeCloseTo(1.03, 12);
    expect(cell("CALIBRATE.FACTOR", column(null), column(null))).toBe("");
  });

  test("refuses pairs that make no sense, saying which", () => {
    const of = (brix: unknown, extract: unknown) =>
      error("CALIBRATE.FACTOR", column(10.3, brix), column(10, extract), null, "P");
    expect(of(6, 12)).toBe("#VALUE! Pair 2: The °Bx over °P is 0.5; allowed are 0.8 to 1.25.");
    expect(of(1.2, 1.2)).toBe("#VALUE! Pair 2: The extract of the wort is 1.2 °P; allowed are 2 to 30 °P.");
    expect(of(12, null)).toMatch(/^#VALUE! Row 2: The hydrometer gravity is empty/);
    expect(error("CALIBRATE.FACTOR", column(12), column(10), null, "P")).toMatch(
      /wort correction factor is 1\.2/,
    );
    expect(error("CALIBRATE.FACTOR", column(12), column(10), "Brass prism", "P")).toMatch(
      /does not compensate temperature/,
    );
  });
});

describe("CALIBRATE.SHIFT", () => {
  test("is what a slipped scale lacks", () => {
    const shift = number("CALIBRATE.SHIFT", column(0.998, 1038, 1.048), column(1, 1.04, 1050));
    expect(shift).toBeCloseTo(0.002, 12);
  });

  test("is the middle one where a pair is misread", () => {
    const shift = number("CALIBRATE.SHIFT", column(0.998, 1.03, 1.048), column(1, 1.04, 1.05));
    expect(shift).toBeCloseTo(0.002, 12);
  });

  test("comes on top of the meniscus allowance", () => {
    expect(number("CALIBRATE.SHIFT", column(0.999), column(1.002), "Finishing glass")).toBeCloseTo(0.002, 12);
  });

  test("is in units of the scale, at its own calibration temperature", () => {
    expect(number("CALIBRATE.SHIFT", column(9.8), column(plato("10.0")), "Plato spindle")).toBeCloseTo(
      0.2,
      2,
    );
    // 60 °F/60 °F beside 20 °C/20 °C: the scales are a few 1e-5 apart, and both are 1 for water.
    expect(number("CALIBRATE.SHIFT", column(0.999), column(1), "Old sixty")).toBeCloseTo(0.001, 9);
  });

  test("refuses pairs that make no sense, saying which", () => {
    expect(error("CALIBRATE.SHIFT", column(1, 1.046), column(1, 1.064))).toMatch(
      /^#VALUE! Pair 2: The reading is 1\.046 where 1\.064 is true/,
    );
    expect(error("CALIBRATE.SHIFT", column(1.04, 1.04), column(1.041, 1.045))).toMatch(
      /Pairs 1 and 2 contradict each other/,
    );
    expect(error("CALIBRATE.SHIFT", column(1.046), column(1.045), "Finishing glass")).toMatch(
      /allowed are 0\.98 to 1\.03/,
    );
    expect(error("CALIBRATE.SHIFT", column(1.046), column(null))).toMatch(/^#VALUE! Row 1: .* is empty/);
  });

  test("passes lines without a reading over, as blanks or as 0", () => {
    expect(number("CALIBRATE.SHIFT", column(0, null, 1.048), column(1, 1.04, 1.05))).toBeCloseTo(0.002, 12);
    expect(cell("CALIBRATE.SHIFT", column(0), column(1))).toBe("");
  });

  test("asks about a 0 on a °P scale beside a truth", () => {
    expect(error("CALIBRATE.SHIFT", column(0), column(0.2), "Plato spindle", "P")).toMatch(/write 0\.01/);
    expect(number("CALIBRATE.SHIFT", column(0.01), column(0.21), "Plato spindle", "P")).toBeCloseTo(0.2, 9);
  });
});

describe("the pane", () => {
  const profileOf = <K extends string>(name: string, kind: K) => {
    const found = instruments.instruments.find((each) => each.name === name);
    if (found?.kind !== kind) throw new Error(`no such ${kind}`);
    return found as Extract<(typeof instruments.instruments)[number], { kind: K }>;
  };

  test("finds the same factor", () => {
    const own = profileOf("Pocket prism", "refractometer");
    const method = refractometerMethods(own).find(({ key }) => key === "factor");
    const found = method?.find([
      { reading: 10.3, tC: undefined, extract: 10 },
      { reading: 12.5, tC: undefined, extract: 12 },
      { reading: 15.6, tC: undefined, extract: 15 },
    ]);
    const readings = column(10.3, 12.5, 15.6);
    const factor = number("CALIBRATE.FACTOR", readings, column(10, 12, 15), own.name, "P");
    expect(found?.profile).toMatchObject({ wortFactor: Number(factor.toFixed(4)) });
  });

  test("finds the same shift", () => {
    const own = profileOf("Finishing glass", "hydrometer");
    const method = hydrometerMethods(own).find(({ key }) => key === "shift");
    const found = method?.find([
      { reading: 0.999, tC: 20, extract: 0.2 },
      { reading: 1.01, tC: 20, extract: 3 },
      { reading: 1.02, tC: 20, extract: 5.8 },
    ]);
    const [check] = (found?.profile as typeof own).checks ?? [];
    const shift = number("CALIBRATE.SHIFT", column(0.999, 1.01, 1.02), column(0.2, 3, 5.8), own.name, "P");
    expect(check?.true).toBeCloseTo((check?.reading ?? NaN) + 0.001 + shift, 6); // it keeps six decimals
  });
});
