import { describe, expect, test } from "vitest";
import { cell, cells, column, error, errorText, number } from "../../support/cells.js";

/** 2026-03-01 as a spreadsheet counts days: 2025-01-01 is 45658 (its documentation), and 424 days later. */
const MARCH_1 = 46_082;

const days = (count: number): unknown[][] => column(...Array.from({ length: count }, (_, i) => MARCH_1 + i));

const fall = column(1.05, 1.048, 1.032, 1.018, 1.012, 1.01, 1.01, 1.01, 1.01);
const log = [days(9), fall] as const;

describe("times", () => {
  const gravities = column(1.05, 1.04, 1.03, 1.02);
  const halfWay = (...times: unknown[]) => number("FERMENT.REACHES", column(...times), gravities, 1.025);

  test("are a spreadsheet's, or ISO 8601 text in any of its usual spellings", () => {
    expect(halfWay(MARCH_1, MARCH_1 + 1, MARCH_1 + 2, MARCH_1 + 3)).toBeCloseTo(MARCH_1 + 2.5, 9);
    expect(
      halfWay("2026-03-01", "2026-03-02T00:00", "2026-03-03 00:00:00", "2026-03-04T00:00:00.000"),
    ).toBeCloseTo(MARCH_1 + 2.5, 9);
    expect(halfWay("2026-03-01", MARCH_1 + 1, "2026-03-03", MARCH_1 + 3)).toBeCloseTo(MARCH_1 + 2.5, 9);
  });

  test("with zones give results on the clock of the first", () => {
    const utc = halfWay("2026-03-01T00:00Z", "2026-03-02T00:00Z", "2026-03-03T00:00Z", "2026-03-04T00:00Z");
    expect(utc).toBeCloseTo(MARCH_1 + 2.5, 9);
    expect(
      halfWay(
        "2026-03-01T02:00+02:00",
        "2026-03-02T01:00:00+0100",
        "2026-03-02T19:00-05",
        "2026-03-04T00:00:00Z",
      ),
    ).toBeCloseTo(MARCH_1 + 2.5 + 2 / 24, 9);
  });

  test("of which only some say their zone are refused", () => {
    expect(
      error("FERMENT.RATE", column("2026-03-01T00:00Z", "2026-03-02T00:00"), column(1.05, 1.04)),
    ).toMatch(/^#VALUE! Some times say their zone/);
    expect(error("FERMENT.RATE", column("2026-03-01T00:00Z", MARCH_1), column(1.05, 1.04))).toMatch(/zone/);
    expect(error("FERMENT.RATE", ...log, "2026-03-02T00:00Z")).toMatch(/zone/);
  });

  test("in other spellings, and days that never were, are refused by row", () => {
    for (const text of [
      "01.03.2026",
      "3/1/2026 18:30",
      "1 March 2026",
      "2026-02-29",
      "2026-03-01T25:00",
      "2026-03-01T18:61",
      "46082",
    ])
      expect(error("FERMENT.RATE", column(MARCH_1, text), column(1.05, 1.04))).toMatch(
        /^#VALUE! Row 2: The time is ".*": allowed are a date-time of the spreadsheet, or text such as 2026-03-01/,
      );
    expect(error("FERMENT.RATE", column(MARCH_1, true), column(1.05, 1.04))).toMatch(
      /Row 2: The time is TRUE/,
    );
    expect(error("FERMENT.RATE", column(MARCH_1, -4), column(1.05, 1.04))).toMatch(/Row 2: The time is -4/);
  });

  test("may be days counted from anywhere, but not from 0, which could be a blank", () => {
    expect(number("FERMENT.RATE", column(1, 2, 3), column(1.05, 1.045, 1.04))).toBeCloseTo(5, 6);
    expect(error("FERMENT.RATE", column(0, 1, 2), column(1.05, 1.045, 1.04))).toMatch(
      /Row 1: .*write 0\.001/,
    );
    expect(cell("FERMENT.RATE", column(0, 0), column(1.05, 1.04))).toBe("");
    // Among dates a 0 is a blank.
    expect(number("FERMENT.RATE", column(0, MARCH_1, MARCH_1 + 1), column(1.05, 1.045, 1.04))).toBeCloseTo(
      5,
      6,
    );
  });
});

describe("FERMENT.SMOOTH", () => {
  test("keeps the shape, and blanks and errors in their places", () => {
    const times = column(MARCH_1, MARCH_1 + 1, null, MARCH_1 + 3, "soon", MARCH_1 + 5);
    const gravities = column(1050, 1.04, 1.03, "", 1.02, 1.012);
    const smooth = cells("FERMENT.SMOOTH", times, gravities).map(([each]) => each);
    expect(smooth.slice(0, 4)).toEqual([expect.closeTo(1.05, 9), expect.closeTo(1.04, 9), "", ""]);
    expect(errorText(smooth[4])).toMatch(/^#VALUE! The time is "soon"/);
    expect(smooth[5]).toBeCloseTo(1.012, 9);
    expect(cells("FERMENT.SMOOTH", [[MARCH_1, MARCH_1 + 1]], [[1.05, 1.04]])).toHaveLength(1);
    expect(cells("FERMENT.SMOOTH", column(null, null), column(null, ""))).toEqual([[""], [""]]);
  });

  test("takes a spike out and puts what the beer was in its place", () => {
    const spiked = fall.map(([gravity], i) => [i === 2 ? 1.06 : gravity]);
    expect(cells("FERMENT.SMOOTH", days(9), spiked)[2]?.[0]).toBeCloseTo((1.048 + 1.018) / 2, 9);
  });

  test("reads and writes °P", () => {
    const plato = cells("FERMENT.SMOOTH", days(3), column(12, 8, 4), "P").flat();
    [12, 8, 4].forEach((expected, i) => {
      expect(plato[i]).toBeCloseTo(expected, 9);
    });
    expect(error("FERMENT.SMOOTH", column(MARCH_1), column(12))).toMatch(/If it is °P, say so/);
    expect(error("FERMENT.SMOOTH", days(3), column(12, 8, 4), column("P", "SG", "P"))).toMatch(/one scale/);
  });
});

describe("FERMENT.RATE", () => {
  test("is in points or °P per day, at any time of the log", () => {
    expect(number("FERMENT.RATE", days(4), column(1.05, 1.045, 1.04, 1.035))).toBeCloseTo(5, 9);
    expect(number("FERMENT.RATE", days(4), column(12, 11, 10, 9), null, "P")).toBeCloseTo(1, 2);
    expect(cells("FERMENT.RATE", ...log, column(MARCH_1 + 1, null)).flat()).toEqual([
      expect.closeTo(9, 9),
      expect.closeTo(0, 9),
    ]);
    expect(number("FERMENT.RATE", ...log, "2026-03-02")).toBeCloseTo(9, 9);
  });

  test("says where the log ends", () => {
    expect(error("FERMENT.RATE", ...log, "2026-03-20 18:30")).toBe(
      "#N/A The time is 2026-03-20 18:30; the log goes from 2026-03-01 00:00 to 2026-03-09 00:00.",
    );
    expect(error("FERMENT.RATE", column(1, 2), column(1.05, 1.04), 7.5)).toBe(
      "#N/A The time is day 7.5; the log goes from day 1 to day 2.",
    );
    expect(error("FERMENT.RATE", days(1), column(1.05))).toMatch(/#N\/A The log has 1 reading .* takes 2/);
  });
});

describe("FERMENT.REACHES", () => {
  test("takes many targets at once", () => {
    expect(cells("FERMENT.REACHES", ...log, [[1.04, 1.025, null]])).toEqual([
      [expect.closeTo(MARCH_1 + 1.5, 9), expect.closeTo(MARCH_1 + 2.5, 9), ""],
    ]);
    expect(number("FERMENT.REACHES", days(3), column(12, 8, 4), 4.0001, "P")).toBeCloseTo(MARCH_1 + 2, 2);
  });

  test("gives #N/A and the reason where the log cannot say", () => {
    expect(error("FERMENT.REACHES", ...log, 1.06)).toMatch(/^#N\/A The log begins at 1\.05, already/);
    expect(error("FERMENT.REACHES", ...log, 1.004)).toMatch(
      /^#N\/A By the readings so far gravity levels off near 1\.0\d+.*not below 1\.004/,
    );
    expect(error("FERMENT.REACHES", days(3), column(1.05, 1.04, 1.03), 1.01)).toMatch(
      /^#N\/A The log has 3 readings .* takes 6/,
    );
    expect(error("FERMENT.REACHES", ...log, 12)).toMatch(/^#VALUE! The target is 12; .*°P/);
  });
});

describe("FERMENT.STEADY", () => {
  test("by default is a point in three days, and both can be changed", () => {
    expect(cell("FERMENT.STEADY", ...log)).toBe(true);
    expect(cell("FERMENT.STEADY", ...log, 5)).toBe(false);
    expect(cell("FERMENT.STEADY", ...log, 4, 0.002)).toBe(true);
    expect(cell("FERMENT.STEADY", days(4), column(2.5, 2.25, 2.25, 2.25), null, 0.3, "P")).toBe(true);
    expect(cell("FERMENT.STEADY", days(4), column(2.75, 2.25, 2.25, 2.25), null, 0.3, "P")).toBe(false);
    expect(cell("FERMENT.STEADY", days(1), column(1.01))).toBe(false);
    expect(cell("FERMENT.STEADY", days(1), column(null))).toBe("");
  });

  test("refuses a tolerance in points", () => {
    expect(error("FERMENT.STEADY", ...log, 3, 1)).toBe(
      "#VALUE! The tolerance is 1; allowed are 0.0001 to 0.01 as SG.",
    );
    expect(error("FERMENT.STEADY", ...log, 100)).toMatch(/time to stand still is 100 days/);
  });
});

describe("FERMENT.STAGES", () => {
  test("is a table, with a word where a stage is not reached", () => {
    expect(cells("FERMENT.STAGES", ...log)).toEqual([
      ["started", MARCH_1 + 1, expect.closeTo(1.048, 9)],
      ["fastest", MARCH_1 + 2, expect.closeTo(1.032, 9)],
      ["slowing", expect.closeTo(MARCH_1 + 3 + (10 - 7.5) / (10 - 4), 9), expect.any(Number)],
      ["steady", MARCH_1 + 5, expect.closeTo(1.01, 9)],
    ]);
    expect(cells("FERMENT.STAGES", days(3), column(1.05, 1.049, 1.049))).toEqual([
      ["started", "not yet", ""],
      ["fastest", "not yet", ""],
      ["slowing", "not yet", ""],
      ["steady", "not yet", ""],
    ]);
    expect(new Set(cells("FERMENT.STAGES", column(null), column(null)).flat())).toEqual(new Set([""]));
  });
});

test("ranges of different lengths are refused", () => {
  for (const name of ["SMOOTH", "RATE", "STEADY", "STAGES"])
    expect(error(`FERMENT.${name}`, days(3), column(1.05, 1.04))).toMatch(/different shapes/);
});
