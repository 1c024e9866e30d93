import { describe, expect, test } from "vitest";
import { findInstrument } from "../../src/instruments/find.js";
import { InstrumentsRefused } from "../../src/instruments/refusal.js";
import { checkProfile, formatSet, parseSet } from "../../src/instruments/set.js";
import { instruments } from "../support/instruments.js";

const hydrometer = {
  name: "Glass",
  kind: "hydrometer",
  scale: "SG",
  temperatureUnit: "C",
  calibrationTemperature: 20,
  read: "level",
};
const refractometer = {
  name: "Prism",
  kind: "refractometer",
  scale: "BX",
  temperatureUnit: "C",
  compensates: true,
  wortFactor: 1.04,
};
const floating = { name: "Bobber", kind: "floating", scale: "SG", pairs: [] as object[] };

function refusal(input: unknown): InstrumentsRefused {
  try {
    parseSet(typeof input === "string" ? input : JSON.stringify(input));
  } catch (error) {
    if (error instanceof InstrumentsRefused) return error;
    throw error;
  }
  throw new Error("not refused");
}

const problems = (...profiles: unknown[]): readonly string[] =>
  refusal({ version: 1, instruments: profiles }).problems;

test("a set survives writing and reading", () => {
  expect(parseSet(formatSet(instruments))).toEqual(instruments);
});

test("a byte order mark does not matter", () => {
  expect(parseSet(`\uFEFF${formatSet(instruments)}`)).toEqual(instruments);
});

describe("a wrong field is reported with its path, what was found and what is allowed", () => {
  for (const [what, profile, sentence] of [
    [
      "a text for a number",
      { ...refractometer, wortFactor: "1,04" },
      'instruments[0].wortFactor: found "1,04"; allowed is a number.',
    ],
    [
      "a number too high",
      { ...refractometer, wortFactor: 1.4 },
      "instruments[0].wortFactor: found 1.4; allowed is a number of at most 1.1.",
    ],
    [
      "an unknown word",
      { ...hydrometer, scale: "XX" },
      'instruments[0].scale: found "XX"; allowed is one of "SG", "P", "BX".',
    ],
    [
      "an unknown field",
      { ...hydrometer, colour: "red" },
      "instruments[0].colour: there is no such field here.",
    ],
    [
      "an unknown kind",
      { ...hydrometer, kind: "pycnometer" },
      'instruments[0].kind: found "pycnometer"; allowed is one of "hydrometer", "refractometer", "floating".',
    ],
    [
      "a missing field",
      { ...hydrometer, read: undefined },
      'instruments[0].read: found nothing; allowed is one of "level", "top".',
    ],
    [
      "an empty name",
      { ...hydrometer, name: "  " },
      'instruments[0].name: found "  "; allowed is a text that is not empty.',
    ],
    [
      "a very long name",
      { ...hydrometer, name: "x".repeat(10_000) },
      `instruments[0].name: found "${"x".repeat(39)}…; allowed is at most 100 characters.`,
    ],
    [
      "a bad time",
      { ...hydrometer, edited: "yesterday" },
      'instruments[0].edited: found "yesterday"; allowed is a time such as "2026-03-14T09:30:00Z".',
    ],
    [
      "a °F temperature in °C",
      { ...hydrometer, calibrationTemperature: 140 },
      "instruments[0].calibrationTemperature: found 140; allowed is a number from 0 to 80 °C.",
    ],
    [
      "a gravity with its point lost",
      { ...hydrometer, lowest: 1000 },
      "instruments[0].lowest: found 1000; allowed is a number from 0.9 to 1.2.",
    ],
    [
      "graduations upside down",
      { ...hydrometer, lowest: 1.1, highest: 1 },
      "instruments[0].highest: found 1; allowed is a number above the lowest graduation, 1.1.",
    ],
    [
      "a meniscus without its allowance",
      { ...hydrometer, read: "top" },
      "instruments[0].meniscusAllowance: found nothing; allowed is how much a reading at the top of the meniscus is short, such as 0.001.",
    ],
    [
      "a reference for a °P scale",
      { ...hydrometer, scale: "P", referenceTemperature: 20 },
      "instruments[0].referenceTemperature: found 20; allowed is nothing here: only an SG scale compares with water.",
    ],
    [
      "a check point off the scale",
      { ...hydrometer, checks: [{ reading: 1, true: 12 }] },
      "instruments[0].checks[0].true: found 12; allowed is a number from 0.9 to 1.2.",
    ],
    [
      "a water reading that is none",
      { ...refractometer, waterReading: 12 },
      "instruments[0].waterReading: found 12; allowed is a number from -2 to 2: what it shows on water.",
    ],
    [
      "calibration pairs mixed up",
      {
        ...floating,
        pairs: [
          { reading: 1.05, true: 1.01 },
          { reading: 1.01, true: 1.05 },
        ],
      },
      'instruments[0].pairs: found [{"reading":1.05,"true":1.01},{"reading"…; allowed is pairs whose line has a slope from 0.5 to 2.',
    ],
    ["something else altogether", 5, "instruments[0]: found 5; allowed is an object."],
  ] as const)
    test(what, () => {
      expect(problems(profile)).toEqual([sentence]);
    });
});

test("all problems are reported at once", () => {
  expect(problems({ ...refractometer, wortFactor: 2 }, { ...hydrometer, scale: "X" }, 1).length).toBe(3);
});

test("two instruments cannot have one name, whatever its case or outer blanks", () => {
  expect(problems(hydrometer, { ...refractometer, name: " GLASS " })).toEqual([
    'instruments[1].name: found " GLASS "; allowed is another name: instruments[0] has this one.',
  ]);
});

test("a later version is told apart from a damaged file", () => {
  expect(refusal({ version: 2, instruments: "in some other form" })).toMatchObject({ because: "newer" });
  expect(refusal({ version: 2 }).message).toMatch(/format version 2; this Gylesheet reads up to 1/);
  expect(refusal({ instruments: [] })).toMatchObject({ because: "invalid" });
  expect(refusal("{")).toMatchObject({ because: "unreadable" });
});

test("what is no JSON is refused in one line, although the parser quotes lines of it", () => {
  const text = '{"version": 1,\n  "instruments": [\n    \uFEFF{\n      "name": "Glass"\n    }\n  ]\n}';
  expect((): unknown => JSON.parse(text)).toThrow(/\n/);
  expect(refusal(text).problems).toEqual([expect.stringMatching(/^The instruments are not JSON: [^\n]+\.$/)]);
});

test("fifty megabytes are refused before they are parsed", () => {
  const long = `{"version":1,"instruments":[],"x":"${"x".repeat(50_000_000)}"}`;
  expect(refusal(long).message).toMatch(/characters; allowed are 2000000/);
});

test("__proto__ is an unknown field, and changes nothing", () => {
  const text = '{"version":1,"instruments":[],"__proto__":{"polluted":true}}';
  expect(refusal(text).problems).toEqual(["__proto__: there is no such field here."]);
  expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
});

test("names may hold anything that people type", () => {
  for (const name of ["<b>Glass</b>", '=HYPERLINK("x")', "ガラス", "زجاج", "🍺 jar", 'Jo\'s "best"']) {
    const set = parseSet(JSON.stringify({ version: 1, instruments: [{ ...hydrometer, name }] }));
    expect(findInstrument(set, ` ${name.toUpperCase()} `)?.name).toBe(name);
  }
});

test("a single profile is checked the same way", () => {
  expect(checkProfile(hydrometer)).toEqual({ profile: hydrometer });
  expect(checkProfile({ ...hydrometer, scale: 1, colour: "red" })).toEqual({
    problems: [
      { path: ["scale"], allowed: 'one of "SG", "P", "BX"' },
      { path: ["colour"], allowed: undefined },
    ],
  });
});
