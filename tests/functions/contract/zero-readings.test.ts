// 0.0 °P is what many a finished beer shows. Beside a time or a temperature it was read; alone it may be an empty cell.
import { beforeAll, describe, expect, test } from "vitest";
import { useInstruments } from "../../../src/functions/contract/instruments-port.js";
import { cell, cells, column, error, number } from "../../support/cells.js";
import { instruments } from "../../support/instruments.js";

beforeAll(() => {
  useInstruments({
    ...instruments,
    instruments: [
      ...instruments.instruments,
      {
        name: "SG prism",
        kind: "refractometer",
        scale: "SG",
        temperatureUnit: "C",
        compensates: true,
        wortFactor: 1,
      },
    ],
  });
});

const empty = [null, undefined, "", " "];

describe("a reading of 0 on a °P or °Bx scale beside a temperature", () => {
  test("is one for a hydrometer", () => {
    expect(number("HYDROMETER", 0, 20, "Plato spindle", "P")).toBeCloseTo(0, 9);
    // Between its neighbours, at a temperature that moves it.
    const around = [-0.01, 0, 0.01].map((p) => number("HYDROMETER", p, 15, "Plato spindle"));
    expect(around[1]).toBeCloseTo(((around[0] ?? NaN) + (around[2] ?? NaN)) / 2, 7);
    expect(number("PLUSMINUS.HYDROMETER", 0, 20, "Plato spindle")).toBeCloseTo(
      number("PLUSMINUS.HYDROMETER", 0.01, 20, "Plato spindle"),
      6,
    );
  });

  test("is one for a refractometer: water shows 0", () => {
    expect(number("REFRACTOMETER.WORT", 0, 20)).toBeCloseTo(1, 9);
    expect(number("REFRACTOMETER.WORT", 0, 68, "Brass prism", "P")).toBeCloseTo(0, 9);
    expect(number("PLUSMINUS.REFRACTOMETER", 0, null, 20)).toBeGreaterThan(0);
    expect(error("REFRACTOMETER.BEER", 0, 1.048, 20)).toMatch(/No beer has a gravity/);
  });

  test("is one in a season", () => {
    const [row] = cells("SEASON", 12, 20, 0, 20, "Plato spindle", null, "P");
    expect(row?.[1]).toBeCloseTo(0, 9);
    expect(row?.[2]).toBeCloseTo(number("ABV", 12, 0.000_001, null, "P"), 4);
    expect(row?.[3]).toBeCloseTo(100, 6);
  });

  test("alone is an empty row, and stays one", () => {
    for (const none of [...empty, 0]) {
      expect(cell("HYDROMETER", 0, none, "Plato spindle")).toBe("");
      expect(cell("REFRACTOMETER.WORT", 0, none)).toBe("");
      expect(cell("PLUSMINUS.REFRACTOMETER", 0, null, none)).toBe("");
    }
    for (const none of empty) {
      expect(cell("HYDROMETER", none, 20, "Plato spindle")).toBe("");
      expect(cell("REFRACTOMETER.WORT", none, 20)).toBe("");
      expect(cells("SEASON", 12, 20, none, 20, "Plato spindle")[0]?.slice(1)).toEqual(["", "", "", ""]);
    }
  });

  test("is an empty cell on a scale of SG, which never reads 0", () => {
    expect(cell("HYDROMETER", 0, 20)).toBe("");
    expect(cell("HYDROMETER", 0, 20, "Starting glass")).toBe("");
    expect(cell("REFRACTOMETER.WORT", 0, 20, "SG prism")).toBe("");
  });
});

describe("a gravity of 0 °P beside a time", () => {
  const days = column(46082, 46083, 46084, 46085, 46086, 46087, 46088, 46089);
  const fall = [12, 9, 5, 2, 0.5, 0, 0, 0];

  test("was logged", () => {
    expect(number("FERMENT.SMOOTH", 46082, 0, "P")).toBeCloseTo(0, 9);
    expect(cells("FERMENT.SMOOTH", days, column(...fall), "P").at(-1)?.[0]).toBeCloseTo(0, 6);
    expect(number("FERMENT.RATE", column(46082, 46083), column(1, 0), null, "P")).toBeCloseTo(1, 2);
    expect(cell("FERMENT.STEADY", days, column(...fall), 2, null, "P")).toBe(true);
    expect(cells("FERMENT.STAGES", days, column(...fall), "P").at(-1)?.[2]).toBeCloseTo(0, 6);
    expect(number("FERMENT.REACHES", days, column(...fall), 0.2, "P")).toBeGreaterThan(46086);
  });

  test("is no reading where the row has no time, and no SG is 0", () => {
    for (const none of [...empty, 0]) expect(cell("FERMENT.SMOOTH", none, 0, "P")).toBe("");
    for (const none of empty) expect(cell("FERMENT.SMOOTH", 46082, none, "P")).toBe("");
    expect(cell("FERMENT.SMOOTH", 46082, 0)).toBe("");
  });
});

test("a final gravity of 0 °P has neither beside it, so it is asked about", () => {
  for (const [name, ...args] of [
    ["ABV", 12, 0, null, "P"],
    ["ABW", 12, 0, "P"],
    ["ENERGY", 12, 0, null, "P"],
    ["CO2.LATENT", 1, 0, null, 12, "P"],
  ] as const)
    expect(error(name, ...args)).toMatch(/0 or empty.*write 0\.01/);
  for (const none of empty) expect(cell("ABV", 12, none, null, "P")).toBe("");
});
