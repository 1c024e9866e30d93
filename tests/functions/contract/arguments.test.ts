import { describe, expect, test } from "vitest";
import { CellError } from "../../../src/functions/contract/cell-value.js";
import { cell, cells, column, error, errorText, number } from "../../support/cells.js";

describe("an empty cell", () => {
  for (const [name, blank] of [
    ["null", null],
    ["undefined", undefined],
    ["an empty text", ""],
    ["blanks", "  "],
    ["0 for an SG", 0],
    ["an empty rich value", { type: "Empty", basicValue: "" }],
  ] as const)
    test(`is the same whether it arrives as ${name}`, () => {
      expect(cell("ABV", blank, blank)).toBe("");
      expect(cell("ABV", 1.048, blank)).toBe("");
      expect(cell("ABV", blank, 1.012)).toBe("");
      expect(cell("HYDROMETER", blank, 20)).toBe("");
      expect(number("ABV", 1.048, 1.012, blank, blank)).toBe(number("ABV", 1.048, 1.012));
    });

  test("beside a reading, as its temperature, is an error and never 20 °C", () => {
    for (const blank of [null, undefined, "", " "])
      expect(error("HYDROMETER", 1.046, blank)).toMatch(/^#VALUE! The sample temperature is empty/);
  });

  test("may be a typed 0, so a temperature of 0 says so and how to mean it", () => {
    expect(error("HYDROMETER", 1.046, 0)).toMatch(/^#VALUE! .*0 or empty.*write 0\.1\./);
    expect(number("HYDROMETER", 1.046, 0.1)).toBeCloseTo(1.0439, 3);
  });

  test("may be a typed 0 °P, so that too has to be said", () => {
    expect(error("ABV", 12, 0, null, "P")).toMatch(/0 or empty.*write 0\.01/);
    expect(cell("ABV", 0, 3, null, "P")).toBe("");
    expect(number("ABV", 12, 0.01, null, "P")).toBeGreaterThan(6);
  });
});

describe("a gravity", () => {
  test("is the same as 1.046 and as 1046", () => {
    expect(number("ABV", 1046, 1010)).toBe(number("ABV", 1.046, 1.01));
    expect(number("HYDROMETER", 1046, 27)).toBe(number("HYDROMETER", 1.046, 27));
  });

  test("of 12 is refused as SG, with how to pass °P", () => {
    expect(error("ABV", 12, 3)).toMatch(
      /is 12; as SG allowed are 0\.9846 to 1\.1291.*"P" as scale, or CONVERT\(12,"P","SG"\)/,
    );
  });

  test("of 48 is refused as SG, with how to pass points", () => {
    expect(error("ABV", 48, 12)).toMatch(/CONVERT\(48,"PTS","SG"\)/);
  });
});

describe("text", () => {
  test("with a decimal comma is refused and the comma named", () => {
    expect(error("HYDROMETER", "1,052", 20)).toBe(
      '#VALUE! The reading is "1,052": text, not a number. If the comma is a decimal comma, type it the way this spreadsheet writes decimals.',
    );
  });

  test("that is a number stored as text is refused, never guessed", () => {
    expect(error("ABV", "1.048", 1.012)).toMatch(/"1\.048": text, not a number\. Type 1\.048 again/);
  });

  test("with a unit is refused and the unit named", () => {
    expect(error("HYDROMETER", 1.046, "20 °C")).toMatch(/without its unit/);
  });

  test("that is a remark is refused; where a value may be missing, with the way to leave it out", () => {
    expect(error("ABV", "lost", 1.01)).toMatch(/Leave the cell empty/);
    expect(error("HYDROMETER", 1.046, "n/a")).toMatch(
      /"n\/a": text, not a number\. The reading is worth nothing without it/,
    );
  });

  test("of great length is shown in part", () => {
    for (const long of ["x".repeat(10_000), "1".repeat(10_000), `${"1.".repeat(5000)}L`])
      expect(error("ABV", long, 1.01)).toMatch(
        /^#VALUE! The original gravity is ".{30}…": text, not a number\. Leave the cell empty/,
      );
  });

  test("is shown on one line, with no character cut in two and no turn of direction", () => {
    expect(error("ABV", `x${"🍺".repeat(40)}`, 1.01)).toContain(`is "x${"🍺".repeat(29)}…":`);
    expect(error("ABV", "lost\nin the \u202ecellar\ud83c", 1.01)).toContain('is "lost in the  cellar ":');
  });

  test("as a choice may be in any case and is listed when wrong", () => {
    expect(number("ABV", 1.048, 1.012, " duty-uk ")).toBeCloseTo(36 * 0.129, 9);
    expect(error("ABV", 1.048, 1.012, "EXACT")).toMatch(
      /"EXACT"; allowed are "BALLING", "QUOTIENT", "DUTY-UK", "RULE"/,
    );
    expect(error("CONVERT", 12, "", "SG")).toMatch(/scale to convert from is ""/);
  });
});

test("truth values are no numbers", () => {
  expect(error("ABV", true, 1.01)).toMatch(/is TRUE; a number is needed/);
});

test("an error cell passes on its code, with where to look", () => {
  for (const code of ["#DIV/0!", "#N/A", "#NUM!", "#NULL!", "#VALUE!"])
    expect(error("ABV", { code, message: "" }, 1.01)).toBe(
      `${code} The original gravity is an error itself. Look at that cell first.`,
    );
  // Codes that a function cannot return.
  for (const code of ["#REF!", "#NAME?", "#SPILL!", "#CALC!"])
    expect(error("ABV", 1.05, { code })).toMatch(/^#VALUE! The final gravity is an error itself/);
  expect(error("ABV", { type: "Error", basicValue: "#DIV/0!" }, 1.01)).toMatch(/^#DIV\/0!/);
});

test("a rich value counts as its basic value", () => {
  const rich = { type: "FormattedNumber", basicValue: 1.048, numberFormat: "0.000" };
  expect(number("ABV", rich, 1.012)).toBe(number("ABV", 1.048, 1.012));
});

describe("ranges", () => {
  const og = column(1.05, 1.06, 1.07);

  test("of one shape go element by element", () => {
    const fg = column(1.01, 1.012, 1.014);
    expect(cells("ABV", og, fg)).toEqual(
      column(number("ABV", 1.05, 1.01), number("ABV", 1.06, 1.012), number("ABV", 1.07, 1.014)),
    );
  });

  test("beside a single cell repeat it", () => {
    expect(cells("ABV", og, [[1.01]])[2]).toEqual([number("ABV", 1.07, 1.01)]);
    expect(cells("ABV", 1.05, [[1.01, 1.02]])).toEqual([
      [number("ABV", 1.05, 1.01), number("ABV", 1.05, 1.02)],
    ]);
  });

  test("as a row against a column make a grid", () => {
    const grid = cells("ABV", og, [[1.01, 1.02]]);
    expect(grid.map((row) => row.length)).toEqual([2, 2, 2]);
    expect(grid[2]?.[1]).toBe(number("ABV", 1.07, 1.02));
  });

  test("of other shapes are refused in one cell that names them", () => {
    expect(error("ABV", og, column(1.01, 1.02))).toMatch(/different shapes \(rows × columns: 3 × 1, 2 × 1\)/);
    expect(
      error(
        "ABV",
        og,
        [[1.01, 1.02]],
        [
          ["RULE", "RULE"],
          ["RULE", "RULE"],
        ],
      ),
    ).toMatch(/different shapes/);
  });

  test("give one error for one bad cell, in its place, and a blank for a blank row", () => {
    const [a, b, c, d] = cells("ABV", column(1.05, "?", null, 1.07), column(1.01, 1.01, null, 1.01)).flat();
    expect([typeof a, c, typeof d]).toEqual(["number", "", "number"]);
    expect(errorText(b)).toMatch(/^#VALUE!/);
  });

  test("may also be ranges of choices and of scales", () => {
    const both = cells("ABV", 1.05, 1.01, [["RULE", "DUTY-UK"]]).flat();
    expect(both[0]).toBeCloseTo(5.25, 9);
    expect(both[1]).toBeCloseTo(40 * 0.13, 9);
  });
});

describe("lists", () => {
  test("pass over empty lines and say in which line something is wrong", () => {
    const kg = column(4.4, null, 0.3, "");
    expect(number("EXTRACT.POTENTIAL", kg, column(79.5, null, 74, null))).toBeCloseTo(
      4.4 * 0.795 + 0.3 * 0.74,
      12,
    );
    expect(error("EXTRACT.POTENTIAL", kg, column(79.5, null, "?", null))).toMatch(
      /^#VALUE! Row 3: The yield is "\?"/,
    );
    expect(error("EXTRACT.POTENTIAL", kg, column(79.5, null, 0, null))).toMatch(
      /Row 3: .*0 or empty.*write nothing for its amount/,
    );
  });

  test("that are empty give a blank", () => {
    expect(cell("EXTRACT.POTENTIAL", column(null, ""), column(null, null))).toBe("");
    expect(cell("BLEND", null, null)).toBe("");
    expect(cell("EFFICIENCY", null, null, column(4), column(80))).toBe("");
  });

  test("beside ranges give a result for each cell of the range", () => {
    const results = cells(
      "EFFICIENCY",
      column(23, 24, null),
      1.042,
      column(4.4, 0.5),
      column(79.5, 74),
    ).flat();
    expect(results[0]).toBeLessThan(results[1] as number);
    expect(results[2]).toBe("");
  });
});

test("an unknown mistake of ours is an error with a message, never a throw", () => {
  const symbolic = {
    get basicValue(): never {
      throw new Error("hostile");
    },
  };
  expect(cells("ABV", symbolic, 1.01)[0]?.[0]).toBeInstanceOf(CellError);
});
