import { describe, expect, test } from "vitest";
import {
  instrumentsNotRead,
  noSuchInstrument,
  notNumber,
  notSg,
  offGraduations,
  sentence,
  shapesDiffer,
  shown,
  textNotNumber,
  warningSentence,
  yieldTooSmall,
} from "../../../src/functions/contract/messages.js";

describe("a number in a sentence", () => {
  test("has the digits that mean something, and no float dust", () => {
    expect([0.1 + 0.2, 1.0123456789, 123456789, 0, -2.5, NaN, Infinity].map(shown)).toEqual([
      "0.3",
      "1.01235",
      "123457000",
      "0",
      "-2.5",
      "not a number",
      "not a number",
    ]);
  });

  test("that was refused is in full where it would look allowed if it were rounded", () => {
    const sg = { of: "gravity", min: 1, max: 1.1, unit: "SG" };
    const said = (given: number): string => sentence({ kind: "out-of-range", range: sg, given });
    expect(said(1.10001)).toContain("is 1.10001;");
    expect(said(1.2000001)).toContain("is 1.2;");
    expect(said(0.99999)).toContain("is 0.99999;");
    expect(said(0.9)).toContain("is 0.9;");
    expect(said(0.9)).toContain("1 to 1.1 as SG");
  });
});

describe("a temperature out of range", () => {
  const said = (given: number, unit = "°C"): string =>
    sentence({
      kind: "out-of-range",
      range: { of: "sample temperature", min: 0, max: 80, unit },
      given,
    });

  test("is told in °C where it would be right in °F", () => {
    expect(said(98.6)).toContain("98.6 °F is 37.0 °C.");
    expect(said(176)).toContain("176 °F is 80.0 °C.");
    expect(said(98.6)).toContain("0 to 80 °C.");
  });

  test("is not where it would be wrong in °F too, or is in another unit", () => {
    for (const given of [177, -5, NaN]) expect(said(given)).not.toContain("°F");
    expect(said(98.6, "°Bx")).not.toContain("°F");
  });
});

test("a corrected reading that lies outside says on which side", () => {
  const range = { of: "extract", min: -4, max: 30, unit: "°P" };
  expect(sentence({ kind: "no-solution", range, sought: "below" })).toContain("below -4 °P");
  expect(sentence({ kind: "no-solution", range, sought: "above" })).toContain("above 30 °P");
});

test("counts are singular where there is one", () => {
  const pairs = (given: number): string => sentence({ kind: "too-few-pairs", given, needed: 2 });
  expect(pairs(1)).toContain("is 1 pair;");
  expect(pairs(0)).toContain("are 0 pairs;");
  const readings = (given: number): string => sentence({ kind: "too-few-readings", given, needed: 6 });
  expect(readings(1)).toContain("1 reading to");
  expect(readings(3)).toContain("3 readings to");
});

test("pairs are counted from 1 where people read of them", () => {
  expect(sentence({ kind: "in-pair", pair: 0, because: { kind: "no-curve" } })).toMatch(/^Pair 1: /);
  const pair = (place: number) => ({ place, reading: 1.04, true: 1.042 });
  expect(sentence({ kind: "pairs-contradict", one: pair(1), other: pair(4), unit: "SG" })).toContain(
    "2 and 5",
  );
});

test("a grist that holds nothing is told from one that holds too little", () => {
  const said = (efficiency: number): string => sentence({ kind: "more-than-grist", efficiency, most: 105 });
  expect(said(120)).toContain("120 %");
  expect(said(Infinity)).not.toContain("%");
  expect(said(NaN)).not.toContain("%");
});

describe("times in a sentence", () => {
  const said = (at: number): string => sentence({ kind: "outside-log", at, first: 46_082, last: 46_083 });

  test("are dates where they are, and days counted from somewhere where not", () => {
    expect(said(5)).toContain("day 5");
    expect(said(999.5)).toContain("day 999.5");
    expect(said(1000)).toContain("1902-09-26 00:00"); // day 1000 of a spreadsheet
    expect(said(5)).toContain("2026-03-01 00:00");
  });
});

describe("what a log cannot tell", () => {
  test("has falls to a tenth of a point", () => {
    expect(sentence({ kind: "no-fall-yet", fall: 1.2345, needed: 5 })).toContain("1.2 points");
  });

  test("has the level at which a curve ends with its ±, unless that is too wide to say anything", () => {
    const said = (within: number): string =>
      sentence({ kind: "levels-off-above", final: 1.0123, within, target: 1.01 });
    expect(said(0.00123)).toContain("1.0123 ± 0.0012,");
    expect(said(0.00001)).toContain("± 0.0001,");
    expect(said(0.02)).toContain("± 0.02,");
    expect(said(0.0201)).not.toContain("±");
  });

  test("says how long the log is where it asks too far ahead", () => {
    const said = (days: number): string => sentence({ kind: "forecast-vague", days, length: 3.04 });
    expect(said(3.1)).toContain("3 days");
    expect(said(3.04)).not.toContain("3 days");
    expect(said(NaN)).not.toContain("3 days");
  });
});

describe("a gravity that is none", () => {
  const range = { of: "gravity", min: 0.9846, max: 1.1291, unit: "SG" };
  const said = (given: number): string => notSg("original gravity", given, range);

  test("is shown how to be passed as °P or points, if it may be one of them", () => {
    for (const plato of [1.3, 12, 30]) expect(said(plato)).toContain(`CONVERT(${plato},"P","SG")`);
    for (const points of [31, 48, 199]) expect(said(points)).toContain(`CONVERT(${points},"PTS","SG")`);
    for (const neither of [0.5, 1.15, 1.2, 200, 1300]) expect(said(neither)).not.toContain("CONVERT");
  });

  test("is told what is allowed, with its point and without", () => {
    expect(said(12)).toContain("0.9846 to 1.1291 (or 985 to 1129)");
  });
});

test("a yield that is too small is taken for a gravity above 1, else for a share", () => {
  const range = { of: "yield", min: 0, max: 47, unit: "points·gal/lb" };
  expect(yieldTooSmall(1.037, range)).toContain("points: 37.");
  expect(yieldTooSmall(0.8, range)).toContain("write 80 with");
  expect(yieldTooSmall(1, range)).toContain("write 100 with");
});

describe("an instrument that is not there", () => {
  const names = ["a", "b", "c", "d", "e", "f", "g", "h"];

  test("is told which there are, six at the most", () => {
    expect(noSuchInstrument("x", [])).toContain("none yet");
    expect(noSuchInstrument("x", names.slice(0, 6))).toMatch(/"a", "b", "c", "d", "e", "f"\.$/);
    expect(noSuchInstrument("x", names)).toMatch(/"f" and 2 more\.$/);
  });

  test("may be there once they have been read, unless they cannot be", () => {
    expect(instrumentsNotRead(undefined)).toContain("Recalculate");
    expect(instrumentsNotRead("The part is damaged.")).toContain("cannot be read: The part is damaged.");
  });
});

test("graduations are told as far as they are known", () => {
  const said = (lowest?: number, highest?: number): string => offGraduations(1.05, "glass", lowest, highest);
  expect(said(1, 1.04)).toContain("graduated from 1 to 1.04.");
  expect(said(1.06)).toContain("graduated from 1.06.");
  expect(said(undefined, 1.04)).toContain("graduated to 1.04.");
});

test("shapes that differ are named once each", () => {
  const column = { rows: 3, columns: 1 };
  expect(shapesDiffer([column, column, { rows: 2, columns: 1 }])).toContain("columns: 3 × 1, 2 × 1)");
});

describe("text where a number belongs", () => {
  test("is asked for again, without its comma, or without its unit", () => {
    for (const number of ["1.048", "+1.048", "-3", "12.", " 12 "])
      expect(textNotNumber("reading", number)).toContain(`Type ${number.trim()} again`);
    for (const comma of ["1,048", "-1,5"]) expect(textNotNumber("reading", comma)).toContain("decimal comma");
    for (const unit of ["20 °C", "-1,5°P", "1.2.3L"])
      expect(textNotNumber("reading", unit)).toContain("without its unit");
    for (const other of ["lost", "about 12", "1e3.5x2", ",", "°C 20"])
      expect(textNotNumber("reading", other)).toContain("Leave the cell empty");
    expect(textNotNumber("reading", "lost", "Read it again.")).toMatch(/Read it again\.$/);
  });

  test("is looked at up to thirty characters", () => {
    expect(textNotNumber("reading", "1".repeat(30))).toContain("again");
    expect(textNotNumber("reading", "1".repeat(31))).not.toContain("again");
  });
});

test("truth values are shown as a spreadsheet has them", () => {
  expect([notNumber("reading", true), notNumber("reading", false)].join()).toMatch(/TRUE.*FALSE/);
});

test("warnings give their figures", () => {
  expect(warningSentence({ kind: "hot-sample", tC: 65.4321 })).toContain("65.4 °C");
  expect(warningSentence({ kind: "outside-checks", reading: 1, from: 1.01, to: 1.05 })).toContain(
    "1.01 to 1.05",
  );
  expect(warningSentence({ kind: "more-than-all", percent: 102.5 })).toContain("102.5 %");
});
