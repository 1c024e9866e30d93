import { describe, expect, test } from "vitest";
import { evaluate } from "../../../src/functions/evaluate.js";
import { properties } from "../../../src/instruments/properties.js";
import { cell, cells, error } from "../../support/cells.js";
import { instruments } from "../../support/instruments.js";
import { useInstruments } from "../../../src/functions/contract/instruments-port.js";

useInstruments(instruments);

describe("INSTRUMENT", () => {
  test("prints what a profile says", () => {
    expect(cell("INSTRUMENT", "starting GLASS ", "calibration")).toBe(20);
    expect(cell("INSTRUMENT", "Old sixty", "THERMOMETER")).toBe("F");
    expect(cell("INSTRUMENT", "Finishing glass", "READ")).toBe("top of the meniscus");
    expect(cell("INSTRUMENT", "Finishing glass", "MENISCUS")).toBe(0.001);
    expect(cell("INSTRUMENT", "Pocket prism", "FACTOR")).toBe(1.02);
    expect(cell("INSTRUMENT", "Brass prism", "COMPENSATES")).toBe(false);
    expect(cell("INSTRUMENT", "Bobber", "CHECKS")).toBe("1.01 → 1.012, 1.05 → 1.05");
    expect(cell("INSTRUMENT", "Bobber", "SUMMARY")).toMatch(/^Bobber: floating hydrometer/);
  });

  test("is blank where nothing was entered, and where no instrument is named", () => {
    expect(cell("INSTRUMENT", "Starting glass", "DIVISION")).toBe("");
    expect(cell("INSTRUMENT", "", "DIVISION")).toBe("");
  });

  test("goes through a range of names and properties", () => {
    expect(cells("INSTRUMENT", [["Starting glass"], ["Bobber"]], [["KIND", "SCALE"]])).toEqual([
      ["hydrometer", "SG"],
      ["floating hydrometer", "SG"],
    ]);
  });

  test("says what an instrument of this kind does not have, and what can be asked", () => {
    expect(error("INSTRUMENT", "Bobber", "FACTOR")).toBe(
      '#N/A "Bobber" is a floating hydrometer, which has no "FACTOR".',
    );
    expect(error("INSTRUMENT", "Bobber", "COLOUR")).toMatch(
      /^#VALUE! The property is "COLOUR"; allowed are "SUMMARY"/,
    );
    expect(error("INSTRUMENT", "Nothing", "SCALE")).toMatch(/^#N\/A There is no instrument "Nothing"/);
  });

  test("answers every property for some kind of instrument", () => {
    for (const property of properties) {
      const answers = instruments.instruments.map(({ name }) => cell("INSTRUMENT", name, property));
      expect([property, answers.some((answer) => typeof answer !== "object")]).toEqual([property, true]);
    }
  });
});

describe("a function tried outside of a cell", () => {
  const plain = { version: 1 as const, instruments: [] };

  test("takes the instruments that it is given, and leaves those of the workbook", () => {
    expect(evaluate("INSTRUMENT", ["Bobber", "SCALE"], instruments)).toEqual([["SG"]]);
    expect(evaluate("INSTRUMENT", ["Bobber", "SCALE"], plain)[0]?.[0]).toMatchObject({ code: "#N/A" });
    expect(cell("INSTRUMENT", "Bobber", "SCALE")).toBe("SG");
  });

  test("is called by its name in any letter case, or refused", () => {
    expect(evaluate("abv", [1.05, 1.01], plain)).toEqual(cells("ABV", 1.05, 1.01));
    expect(() => evaluate("BREW", [], plain)).toThrow(RangeError);
  });
});
