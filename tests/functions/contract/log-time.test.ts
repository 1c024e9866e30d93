import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isoTime, parseIsoTime } from "../../../src/functions/contract/log-time.js";

// A spreadsheet's serial of a moment, by the clock of JavaScript: day 25569 is 1970-01-01 (ECMA-376, part 1, 18.17.4.1).
const serial = (text: string): number => Date.parse(text) / 86_400_000 + 25_569;

describe("a time of a log in text", () => {
  test("is what JavaScript's own reader takes it for, with any zone", () => {
    const two = (n: number): string => String(n).padStart(2, "0");
    fc.assert(
      fc.property(
        fc.date({ min: new Date("1903-01-02"), max: new Date("2099-12-30"), noInvalidDate: true }),
        fc.constantFrom("Z", "+00:00", "+01:00", "-03:30", "+05:45", "-11:00", "+14:00", "-14:59"),
        (date, zone) => {
          const text = `${date.toISOString().slice(0, 19)}${zone}`;
          const found = parseIsoTime(text);
          expect(found?.days).toBeCloseTo(serial(text), 8);
          const sign = zone.startsWith("-") ? -1 : 1;
          const [hours, minutes] = zone === "Z" ? [0, 0] : [Number(zone.slice(1, 3)), Number(zone.slice(4))];
          expect(found?.zone).toBeCloseTo((sign * (hours + minutes / 60)) / 24, 12);
          expect(text).toContain(two(date.getUTCHours()));
        },
      ),
    );
  });

  test("may leave out seconds, the time and the zone, and write blanks and small letters", () => {
    for (const [text, same] of [
      ["2026-03-01", "2026-03-01T00:00:00Z"],
      ["2026-03-01 18:30", "2026-03-01T18:30:00Z"],
      [" 2026-03-01t18:30:15.5 ", "2026-03-01T18:30:15.5Z"],
      ["2026-03-01T18:30:15,25", "2026-03-01T18:30:15.25Z"],
      ["2026-03-01T24:00", "2026-03-02T00:00:00Z"],
      ["2026-03-01T23:59:59", "2026-03-01T23:59:59Z"],
      ["1903-01-01", "1903-01-01T00:00:00Z"],
      ["2024-02-29", "2024-02-29T00:00:00Z"],
    ] as const) {
      expect(parseIsoTime(text)?.days).toBeCloseTo(serial(same), 8);
      expect(parseIsoTime(text)?.zone).toBeUndefined();
    }
    for (const text of [
      "2026-03-01T18:30z",
      "2026-03-01 18:30 Z",
      "2026-03-01T18:30+00",
      "2026-03-01T18:30-0000",
    ])
      expect([text, parseIsoTime(text)]).toEqual([
        text,
        {
          days: expect.closeTo(serial("2026-03-01T18:30Z"), 8) as number,
          zone: expect.closeTo(0, 12) as number,
        },
      ]);
  });

  test("is none where no clock or calendar shows it", () => {
    for (const text of [
      "2026-02-29", // no leap year
      "2026-04-31",
      "2026-13-01",
      "2026-00-10",
      "2026-03-00",
      "1902-12-31",
      "2026-03-01T25:00",
      "2026-03-01T24:01",
      "2026-03-01T24:00:01",
      "2026-03-01T12:60",
      "2026-03-01T12:30:60",
      "2026-03-01T12:30+15:00",
      "2026-03-01T12:30+01:60",
      "2026-3-1",
      "01.03.2026",
      "2026-03-01T12",
      "",
      `2026-03-01${" ".repeat(60)}`,
    ])
      expect([text, parseIsoTime(text)]).toEqual([text, undefined]);
  });

  test("is written to the nearest minute", () => {
    expect(isoTime(serial("2026-03-01T18:30:00Z"))).toBe("2026-03-01 18:30");
    expect(isoTime(serial("2026-03-01T18:30:29Z"))).toBe("2026-03-01 18:30");
    expect(isoTime(serial("2026-03-01T18:30:31Z"))).toBe("2026-03-01 18:31");
    expect(isoTime(serial("2026-12-31T23:59:40Z"))).toBe("2027-01-01 00:00");
  });
});
