import { beforeAll, describe, expect, test } from "vitest";
import { useInstruments } from "../../../src/functions/contract/instruments-port.js";
import { cells, column, error, errorText, number } from "../../support/cells.js";
import { instruments } from "../../support/instruments.js";
import { figure, reference } from "../../support/reference.js";

beforeAll(() => {
  useInstruments(instruments);
});

describe("HYDROMETER", () => {
  test("without an instrument is an SG scale, true at 20 °C (common practice, no source), read at the level surface", () => {
    expect(number("HYDROMETER", 1.046, 20)).toBeCloseTo(1.046, 12);
  });

  test("with a °P instrument follows the printed Brix table: 15 °Bx at 25 °C", () => {
    const row = reference("hydrometer-temp-brix20-transcribed").find((each) => each["t_C"] === "25");
    expect(number("HYDROMETER", 15, 25, "Plato spindle", "P")).toBeCloseTo(15 + figure(row, "bx15"), 1.5);
  });

  test("takes the temperature in the unit of the instrument", () => {
    expect(number("HYDROMETER", 1.046, 77, "Old sixty")).toBeGreaterThan(
      number("HYDROMETER", 1.046, 60, "Old sixty"),
    );
    expect(error("HYDROMETER", 1.046, 212, "Old sixty")).toMatch(/is 100 °C; allowed are 0 to 80 °C/);
  });

  test("adds what the meniscus hides: 1.019 at the raised edge is 1.020", () => {
    expect(number("HYDROMETER", 1.019, 20, "Finishing glass")).toBeCloseTo(1.02, 9);
  });

  test("compares instrument names without case or outer blanks", () => {
    expect(number("HYDROMETER", 1.05, 25, "  STARTING glass ")).toBe(number("HYDROMETER", 1.05, 25));
  });

  test("refuses a reading off the graduations, naming the likely mix-up", () => {
    expect(error("HYDROMETER", 1.046, 20, "Finishing glass")).toMatch(
      /^#VALUE! The reading is 1\.046; "Finishing glass" is graduated from 0\.98 to 1\.03\. Is it the right instrument/,
    );
  });

  test("says #N/A for an unknown instrument, and which there are", () => {
    expect(error("HYDROMETER", 1.046, 20, "Lost one")).toMatch(
      /^#N\/A There is no instrument "Lost one"\. This workbook has "Starting glass", .* and 1 more\.$/,
    );
  });

  test("refuses an instrument of another kind", () => {
    expect(error("HYDROMETER", 1.046, 20, "Bobber")).toBe(
      '#VALUE! "Bobber" is a floating hydrometer; a hydrometer is needed here.',
    );
  });

  test("reads a whole column with an instrument a row", () => {
    const results = cells(
      "HYDROMETER",
      column(1.05, 1.01, null),
      column(25, 15, null),
      column("Starting glass", "Finishing glass", null),
    );
    expect(results.flat().map((each) => typeof each)).toEqual(["number", "number", "string"]);
  });
});

describe("REFRACTOMETER.WORT", () => {
  test("without an instrument compensates and divides by 1.04 (common practice, no source)", () => {
    expect(number("REFRACTOMETER.WORT", 12.48, null, null, "P")).toBeCloseTo(12, 9);
    expect(number("REFRACTOMETER.WORT", 12.48, 27, null, "P")).toBeCloseTo(12, 9);
  });

  test("takes off what the instrument shows on water, and uses its own factor", () => {
    expect(number("REFRACTOMETER.WORT", 10.3, null, "Pocket prism", "P")).toBeCloseTo(10, 9);
  });

  test("corrects the temperature by the 1936 table where the instrument does not: 10 °Bx at 30 °C is 10.77", () => {
    expect(number("REFRACTOMETER.WORT", 10, 86, "Brass prism", "P")).toBeCloseTo(10.77, 9);
  });

  test("needs that temperature", () => {
    expect(error("REFRACTOMETER.WORT", 10, null, "Brass prism")).toMatch(
      /does not compensate temperature: give that of the prism/,
    );
    expect(error("REFRACTOMETER.WORT", 10, 104, "Brass prism")).toMatch(/40 °C; allowed are 10 to 30 °C/);
  });
});

describe("REFRACTOMETER.BEER", () => {
  test("reproduces the computed grid: 6.272 °Bx in beer of 1.048 is 1.012", () => {
    const beer = reference("refractive-model-grid").find(
      (row) => row["OG"] === "1.048" && row["FG"] === "1.0120" && row["k"] === "1.04",
    );
    expect(number("REFRACTOMETER.BEER", figure(beer, "beer_brix"), figure(beer, "OG"))).toBeCloseTo(1.012, 3);
    expect(number("REFRACTOMETER.BEER", figure(beer, "beer_brix"), figure(beer, "wort_brix"))).toBeCloseTo(
      1.012,
      3,
    );
  });

  test("takes the original as gravity, as 1048, or as the °Bx before fermentation", () => {
    const bySg = number("REFRACTOMETER.BEER", 6.4, 1.048);
    expect(number("REFRACTOMETER.BEER", 6.4, 1048)).toBe(bySg);
    const wort = number("CONVERT", 1.048, "SG", "P") * 1.04;
    expect(number("REFRACTOMETER.BEER", 6.4, wort)).toBeCloseTo(bySg, 9);
    expect(error("REFRACTOMETER.BEER", 6.4, 1.6)).toMatch(
      /The original is 1\.6; allowed are a gravity .* or the °Bx/,
    );
  });

  test("refuses an original in °Bx from an instrument that does not compensate", () => {
    expect(error("REFRACTOMETER.BEER", 6.4, 12.4, 68, "Brass prism")).toMatch(
      /Give the original gravity; REFRACTOMETER\.WORT finds it/,
    );
  });
});

describe("FLOATING", () => {
  test("goes by the line of its calibration", () => {
    expect(number("FLOATING", 1.03, "bobber")).toBeCloseTo(1.031, 9);
    expect(error("FLOATING", 1.03)).toMatch(/Name a floating hydrometer/);
    expect(error("FLOATING", 1.095, "Bobber")).toMatch(/allowed are 0\.99 to 1\.07/);
  });
});

describe("ORIGINAL", () => {
  test("finds 1.048 again from the computed grid", () => {
    const beer = reference("refractive-model-grid").find(
      (row) => row["OG"] === "1.048" && row["FG"] === "1.0120" && row["k"] === "1.0",
    );
    useInstruments({
      version: 1,
      instruments: [
        {
          name: "k1",
          kind: "refractometer",
          scale: "BX",
          temperatureUnit: "C",
          compensates: true,
          wortFactor: 1,
        },
      ],
    });
    expect(number("ORIGINAL", 1.012, figure(beer, "beer_brix"), "k1")).toBeCloseTo(1.048, 3);
    useInstruments(instruments);
  });

  test("refuses an instrument whose reading would need a temperature", () => {
    expect(error("ORIGINAL", 1.012, 6.4, "Brass prism")).toMatch(/does not compensate/);
  });

  test("refuses readings that no beer shows", () => {
    expect(error("ORIGINAL", 1.04, 5)).toMatch(/No beer has a gravity of 1\.04 and shows 5 °Bx/);
  });
});

describe("SEASON", () => {
  const season = cells(
    "SEASON",
    column(1.046, 1046, null, "1,05", 1.05, 1.05, 1.01),
    column(25, "n/a", null, 20, 20, 20, 20),
    column(1.01, 1.01, null, 1.01, null, 1.01, 1.02),
    column(20, 20, null, 20, 15, null, 20),
  );

  test("gives a row of five per batch, as the functions it stands for do", () => {
    const [og, fg, abv, apparent, real] = season[0] ?? [];
    expect(og).toBe(number("HYDROMETER", 1.046, 25));
    expect(fg).toBe(number("HYDROMETER", 1.01, 20));
    expect(abv).toBeCloseTo(number("ABV", og, fg), 9);
    expect(apparent).toBeCloseTo(number("ATTENUATION.APPARENT", og, fg), 9);
    expect(real).toBeCloseTo(number("ATTENUATION.REAL", og, fg), 9);
  });

  test("leaves a blank row blank and an unfinished batch as far as it goes", () => {
    expect(season[2]).toEqual(["", "", "", "", ""]);
    expect([typeof season[4]?.[0], ...(season[4] ?? []).slice(1)]).toEqual(["number", "", "", "", ""]);
  });

  test("gives one error for a bad cell, in its place", () => {
    for (const [row, at] of [
      [1, 0],
      [3, 0],
      [5, 1],
      [6, 2],
    ] as const) {
      const errors = (season[row] ?? [])
        .map((each, i) => (errorText(each).startsWith("#") ? i : -1))
        .filter((i) => i >= 0);
      expect(errors).toEqual([at]);
    }
    expect(errorText(season[6]?.[2])).toMatch(/final gravity \(1\.02\) is above the original \(1\.01\)/);
  });

  test("takes one instrument for all, or a pair", () => {
    const pair = cells("SEASON", 1.05, 20, 1.009, 20, "Starting glass", "Finishing glass")[0];
    expect(pair?.[1]).toBeCloseTo(1.01, 9);
    expect(errorText(cells("SEASON", 1.05, 20, 1.009, 20, "Starting glass")[0]?.[1])).toMatch(/graduated/);
  });

  test("reads each cell as HYDROMETER does, whatever stands in it", () => {
    const odd = [1.046, 1046, 12, 0, null, "", " ", "1.046", true, { code: "#N/A" }, -1, 1e9];
    const warm = [20, 0, null, "warm", false, { code: "#DIV/0!" }, 81, 0.1];
    const named = [null, 0, "Plato spindle", "none such", { code: "#REF!" }, true];
    for (const reading of odd)
      for (const tC of warm)
        for (const glass of named) {
          const [row] = cells("SEASON", reading, tC, 1.01, 20, glass, "Finishing glass", "P");
          expect([reading, tC, glass, row?.[0]]).toEqual([
            reading,
            tC,
            glass,
            cells("HYDROMETER", reading, tC, glass, "P")[0]?.[0],
          ]);
        }
  });

  test("asks for columns", () => {
    expect(errorText(cells("SEASON", [[1.05, 1.06]], 20, 1.01, 20)[0]?.[0])).toMatch(
      /Give columns: one batch a row/,
    );
  });
});

test("temperatures in °F by mistake are recognised", () => {
  expect(error("HYDROMETER", 1.046, 104)).toBe(
    "#VALUE! The sample temperature is 104 °C; allowed are 0 to 80 °C. 104 °F is 40.0 °C.",
  );
});
