import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { useInstruments } from "../../../src/functions/contract/instruments-port.js";
import { parseSet } from "../../../src/instruments/set.js";
import { cell, cells, column, error, number } from "../../support/cells.js";
import { instruments } from "../../support/instruments.js";
import { figure, reference } from "../../support/reference.js";

/** The same instruments, with divisions where the others have none. */
const fine = parseSet(
  JSON.stringify({
    version: 1,
    instruments: instruments.instruments.map((instrument) =>
      instrument.name === "Old sixty" || instrument.name === "Finishing glass"
        ? { ...instrument, division: 0.001, maximumError: 0.0005 }
        : instrument,
    ),
  }),
);

/** °P for an SG of 1, by the printed table from one °P below to one above. */
function degreesPerSg(brix: number): number {
  const printed = (at: number): number =>
    figure(
      reference("plato-sg-nbs114-apparent").find((row) => row["brix"] === at.toFixed(1)),
      "apparent_sg_20_20",
    );
  return 2 / (printed(brix + 1) - printed(brix - 1));
}

beforeAll(() => {
  useInstruments(fine);
});
afterAll(() => {
  useInstruments(instruments);
});

describe("PLUSMINUS.HYDROMETER", () => {
  test("is a little above the maker's error of a plain scale", () => {
    const plain = number("PLUSMINUS.HYDROMETER", 1.046, 20);
    expect(plain).toBeGreaterThan((2 * 0.001) / Math.sqrt(3));
    expect(plain).toBeLessThan(0.0015);
    expect(number("PLUSMINUS.HYDROMETER", 1046, 20)).toBe(plain);
  });

  test("takes the temperature's uncertainty in the unit of the instrument, 1 °C if it is left out", () => {
    const of = (within: unknown) => number("PLUSMINUS.HYDROMETER", 1.046, 86, "Old sixty", null, within);
    expect(of(1.8)).toBeCloseTo(of(null), 12);
    expect(of(0.2)).toBeLessThan(of(null));
    expect(error("PLUSMINUS.HYDROMETER", 1.046, 20, null, null, 50)).toMatch(
      /uncertainty of the temperature is 50 °C; allowed are 0 to 20 °C/,
    );
  });

  test("is finer with a finer instrument, and in °P as the printed table has it", () => {
    expect(number("PLUSMINUS.HYDROMETER", 1.01, 20, "Finishing glass")).toBeLessThan(
      number("PLUSMINUS.HYDROMETER", 1.01, 20),
    );
    const plato = number("PLUSMINUS.HYDROMETER", 12, 20, "Plato spindle", "P");
    expect(plato / number("PLUSMINUS.HYDROMETER", 12, 20, "Plato spindle")).toBeCloseTo(degreesPerSg(12), 0);
  });

  test("refuses an instrument whose profile says nothing of how fine it is, and what to add", () => {
    expect(error("PLUSMINUS.HYDROMETER", 1.046, 20, "Starting glass")).toBe(
      '#VALUE! The profile of "Starting glass" has neither a smallest division nor a maker\'s maximum error. Enter one in the Gylesheet pane: how sure a reading is rests on it.',
    );
  });

  test("is blank and refused where HYDROMETER is", () => {
    for (const args of [
      [1.046, null],
      [1.046, 90],
      [12, 20],
      ["1,046", 20],
      [1.046, 20, "Finishing glass"],
      [1.046, 20, "Lost one"],
      [0, null, "Plato spindle"],
    ])
      expect(error("PLUSMINUS.HYDROMETER", ...args)).toBe(error("HYDROMETER", ...args));
    expect(cell("PLUSMINUS.HYDROMETER", null, 20)).toBe("");
    expect(
      cells("PLUSMINUS.HYDROMETER", column(1.046, null, 1.05), 20)
        .flat()
        .map((each) => typeof each),
    ).toEqual(["number", "string", "number"]);
  });

  test("answers at both ends of the temperatures", () => {
    for (const tC of [0.01, 80]) expect(number("PLUSMINUS.HYDROMETER", 1.046, tC)).toBeGreaterThan(0.001);
  });
});

describe("PLUSMINUS.REFRACTOMETER", () => {
  test("without an original is about wort, with one about beer", () => {
    const wort = number("PLUSMINUS.REFRACTOMETER", 12.4);
    // 1.04 may be 4 % off: 0.04·12.4/1.04²·0.004 as a half-width, more by reading and scale.
    expect(wort).toBeGreaterThan((2 * 0.00183) / Math.sqrt(3));
    expect(wort).toBeLessThan(0.0027);
    const beer = number("PLUSMINUS.REFRACTOMETER", 6.4, 12.4);
    expect(beer).toBeGreaterThan(0.0016); // what ±0.2 °Bx alone makes (reference notes)
    expect(beer).toBeLessThan(number("PLUSMINUS.REFRACTOMETER", 6.4, 1.048)); // the factor cancels
    expect(number("PLUSMINUS.REFRACTOMETER", 6.4, 1048)).toBe(number("PLUSMINUS.REFRACTOMETER", 6.4, 1.048));
  });

  test("asks for the temperature where the instrument does, and for its division", () => {
    expect(number("PLUSMINUS.REFRACTOMETER", 12, null, 77, "Brass prism")).toBeGreaterThan(0.001);
    expect(error("PLUSMINUS.REFRACTOMETER", 12, null, null, "Brass prism")).toMatch(/does not compensate/);
    expect(error("PLUSMINUS.REFRACTOMETER", 12, null, null, "Pocket prism")).toMatch(
      /"Pocket prism" has no smallest division\. Enter one/,
    );
  });

  test("is blank and refused where the two functions are", () => {
    expect(cell("PLUSMINUS.REFRACTOMETER", null, 12.4)).toBe("");
    expect(error("PLUSMINUS.REFRACTOMETER", 31)).toBe(error("REFRACTOMETER.WORT", 31));
    for (const args of [
      [14, 12],
      [6.4, 1.6],
      [6.4, 12.4, 68, "Brass prism"],
    ])
      expect(error("PLUSMINUS.REFRACTOMETER", ...args)).toBe(error("REFRACTOMETER.BEER", ...args));
  });

  test("answers at both ends of the scale", () => {
    for (const brix of [0.01, 30]) expect(number("PLUSMINUS.REFRACTOMETER", brix)).toBeGreaterThan(0.0004);
  });
});

describe("PLUSMINUS.ABV", () => {
  test("takes what the readings' own functions give", () => {
    const [og, fg] = [1.048, 1.012].map((reading) => number("PLUSMINUS.HYDROMETER", reading, 20));
    const whole = number("PLUSMINUS.ABV", 1.048, 1.012, og, fg);
    // Yield scatter alone is ±0.15 to 0.3 % vol, and each degree of gravity is 0.13 % vol (reference notes).
    const readings = 130 * Math.hypot(og ?? NaN, fg ?? NaN);
    expect(whole).toBeGreaterThan(Math.hypot(0.15, readings));
    expect(whole).toBeLessThan(Math.hypot(0.3, readings) + 0.005);
  });

  test("means the same in °P", () => {
    const [og, fg] = [1.048, 1.012].map((sg) => number("CONVERT", sg, "SG", "P"));
    const slopes = [1.048, 1.012].map(
      (sg) => 500 * (number("CONVERT", sg + 0.001, "SG", "P") - number("CONVERT", sg - 0.001, "SG", "P")),
    );
    const [up, down] = slopes.map((slope) => 0.001 * slope);
    expect(number("PLUSMINUS.ABV", og, fg, up, down, null, "P")).toBeCloseTo(
      number("PLUSMINUS.ABV", 1.048, 1.012, 0.001, 0.001),
      4,
    );
  });

  test("knows the methods, and is blank while the beer is unfinished", () => {
    expect(number("PLUSMINUS.ABV", 1.048, 1.012, 0.001, 0.001, "RULE")).toBeGreaterThan(0.2);
    expect(error("PLUSMINUS.ABV", 1.048, 1.012, 0.001, 0.001, "GUESS")).toMatch(/allowed are "BALLING"/);
    expect(cell("PLUSMINUS.ABV", 1.048, null, 0.001, null)).toBe("");
  });

  test("is refused where ABV is, and without an uncertainty", () => {
    for (const args of [
      [1.012, 1.048],
      [1.048, 0.985],
      [12, 3],
    ])
      expect(error("PLUSMINUS.ABV", ...args, 0.001, 0.001)).toBe(error("ABV", ...args));
    expect(error("PLUSMINUS.ABV", 1.048, 1.012, null, 0.001)).toMatch(
      /uncertainty of the original gravity is empty/,
    );
    expect(error("PLUSMINUS.ABV", 1.048, 1.012, 0, 0.001)).toMatch(/0 or empty.*write 0\.000001/);
    // Not as 0, which would be allowed.
    expect(error("PLUSMINUS.ABV", 1.048, 1.012, 0.001, -0.00001)).toMatch(
      /uncertainty of the final gravity is -0\.00001; allowed are 0 to 0\.05/,
    );
    expect(error("PLUSMINUS.ABV", 1.048, 1.012, 0.001, 1)).toMatch(
      /uncertainty of the final gravity is 1; allowed are 0 to 0\.05/,
    );
  });

  test("answers where nothing has fermented yet", () => {
    expect(number("PLUSMINUS.ABV", 1.048, 1.048, 0.001, 0.001)).toBeGreaterThan(0);
  });
});

describe("PLUSMINUS.ATTENUATION", () => {
  test("is that of the apparent one, or of the real one", () => {
    // 100·(1 − AE/OE), at 3 °P of 11.9 °P.
    const final = number("PLUSMINUS.ATTENUATION", 1.048, 1.012, 1e-6, 0.001);
    expect(final).toBeCloseTo((0.1 * degreesPerSg(3)) / 11.9, 1.7);
    expect(number("PLUSMINUS.ATTENUATION", 1.048, 1.012, 0.001, 0.001)).toBeGreaterThan(final);
    // Exactly known gravities leave the yield: 0.00484 of (OE − RE)/(OE − AE), about 0.824, for 61 %.
    const real = number("PLUSMINUS.ATTENUATION", 1.048, 1.012, 1e-6, 1e-6, "REAL");
    expect(real).toBeCloseTo((2 * 61.2 * 0.00484) / 0.824, 2);
  });

  test("is refused where the functions are", () => {
    expect(error("PLUSMINUS.ATTENUATION", 1.012, 1.048, 0.001, 0.001)).toBe(
      error("ATTENUATION.APPARENT", 1.012, 1.048),
    );
    expect(error("PLUSMINUS.ATTENUATION", 1.048, 1.012, 0.001, 0.001, "TRUE")).toMatch(
      /allowed are "APPARENT"/,
    );
  });
});
