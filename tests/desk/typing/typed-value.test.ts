// What people type into a sheet, and what spreadsheet programs make of the same (common practice, no source). Serial numbers of
// dates are counted here, day by day, not taken from the code.
import { describe, expect, test } from "vitest";
import { conventionsOf } from "../../../src/desk/typing/locale-conventions.js";
import { typedValue } from "../../../src/desk/typing/typed-value.js";

const today = new Date(2026, 10, 28);
const read = (text: string, locale = "en-US", since1904 = false) =>
  typedValue(text, conventionsOf(locale, today), since1904);
/** Days since 30 December 1899, as spreadsheets count them after February 1900. */
const day = (year: number, month: number, date: number): number =>
  Math.round((Date.UTC(year, month - 1, date) - Date.UTC(1899, 11, 30)) / 86_400_000);

describe("numbers", () => {
  test.each([
    ["1.050", 1.05],
    ["007", 7],
    [".5", 0.5],
    ["5.", 5],
    ["+5", 5],
    ["-1.5", -1.5],
    ["−1.5", -1.5],
    ["-0", 0],
    ["(5)", -5],
    [" 12 ", 12],
    ["1e3", 1000],
    ["1.50E-02", 0.015],
    ["5%", 0.05],
    ["5.5 %", 0.055],
    ["-5%", -0.05],
    ["$5", 5],
    ["-$5.50", -5.5],
    ["5 €", 5],
    ["1,000", 1000],
    ["1,234,567.5", 1_234_567.5],
    ["2 1/2", 2.5],
    ["-2 1/2", -2.5],
    ["0 3/16", 0.1875],
  ])("%s is %d", (text, value) => {
    expect(read(text).value).toBe(value);
  });

  test.each([
    ["12,5", 12.5],
    ["1,050", 1.05],
    ["1.050", 1.05],
    ["1.000,5", 1000.5],
    ["1.000.000", 1_000_000],
    [",5", 0.5],
    ["5,5%", 0.055],
  ])("%s is %d where the decimal sign is a comma", (text, value) => {
    expect(read(text, "de-DE").value).toBe(value);
  });

  test("thousands are set apart as the reader does it", () => {
    for (const blank of [" ", "\u00a0", "\u202f"]) {
      expect(read(`1${blank}000`, "fr-FR").value).toBe(1000);
      expect(read(`1${blank}000,5`, "sv-SE").value).toBe(1000.5);
    }
    expect(read("1'000.5", "de-CH").value).toBe(1000.5);
    expect(read("12,34,567", "en-IN").value).toBe(1_234_567);
  });

  test.each([
    ...[
      "0x10",
      "0b1",
      "Infinity",
      "NaN",
      "1e400",
      "1_000",
      "12,5",
      "1,00",
      "1 000",
      "1,0000",
      "1.000.000",
      "0,001,5",
    ],
    ...[
      "1,000e3%",
      "--5",
      "5-",
      "5%%",
      "$",
      "%",
      ".",
      ",",
      "-",
      "1 1/0",
      "1.2.3",
      "12345678901234567",
      "1,050 SG",
    ],
    ...["ABC", "'5", "5 l", "٣", "１２"],
  ])("%s stays a text", (text) => {
    expect(read(text)).toEqual({ value: text });
  });

  test("no reader gets another number than was written", () => {
    expect(read("1,000", "de-DE").value).toBe(1);
    expect(read("12,34,567", "en-US").value).toBe("12,34,567");
    expect(read("1'000", "en-US").value).toBe("1'000");
    expect(read("1.000,5", "en-US").value).toBe("1.000,5");
    expect(read("1,000.5", "de-DE").value).toBe("1,000.5");
  });

  test("the format shows what was typed", () => {
    const formats = ["5%", "5.5%", "1e3", "1,000", "1,000.5", "$5", "2 1/2", "1.050"].map((text) => read(text).format);
    expect(formats).toEqual(["0%", "0.00%", "0.00E+00", "#,##0", "#,##0.00", '"$"#,##0', "# ?/?", undefined]);
  }); // prettier-ignore
});

describe("dates", () => {
  test.each(["en-US", "en-GB", "de-DE", "ja-JP", "sv-SE"])("ISO dates are dates for %s", (locale) => {
    const value = day(2026, 11, 28);
    expect(read("2026-11-28", locale)).toEqual({ value, format: "yyyy-mm-dd" });
    expect(read("2026/11/28", locale)).toEqual({ value, format: "yyyy/mm/dd" });
    expect(read("2026-11-28 14:30", locale)).toEqual({
      value: value + 14.5 / 24,
      format: "yyyy-mm-dd h:mm",
    });
    expect(read("2026-11-28T06:00:00", locale).value).toBe(value + 0.25);
  });

  test.each(["en-US", "en-GB", "de-DE", "sv-SE", "ja-JP"])("with points the day comes first for %s", (locale) => {
    expect(read("01.05.2026", locale)).toEqual({ value: day(2026, 5, 1), format: "dd.mm.yyyy" });
    expect(read("1.5.2026", locale)).toEqual({ value: day(2026, 5, 1), format: "d.m.yyyy" });
    expect(read("28.11.2026", locale).value).toBe(day(2026, 11, 28));
    expect(read("11.28.2026", locale).value).toBe("11.28.2026");
  }); // prettier-ignore

  test("with strokes the order is the reader's", () => {
    expect(read("1/5/2026", "en-US")).toEqual({ value: day(2026, 1, 5), format: "m/d/yyyy" });
    expect(read("1/5/2026", "en-GB")).toEqual({ value: day(2026, 5, 1), format: "d/m/yyyy" });
    expect(read("01-05-2026", "nl-NL")).toEqual({ value: day(2026, 5, 1), format: "dd-mm-yyyy" });
    expect(read("13/5/2026", "en-US").value).toBe("13/5/2026");
    expect(read("5/13/2026", "en-GB").value).toBe("5/13/2026");
    expect(read("1/5/2026", "ja-JP").value).toBe("1/5/2026");
  });

  test("a day without a year is one of this year, in the reader's order", () => {
    expect(read("1/2", "en-US")).toEqual({ value: day(2026, 1, 2), format: "m/d" });
    expect(read("1/2", "en-GB")).toEqual({ value: day(2026, 2, 1), format: "d/m" });
    expect(read("13/2", "en-US").value).toBe("13/2");
  });

  test("a year of two digits is of this century up to 29", () => {
    expect(read("1/5/29", "en-US").value).toBe(day(2029, 1, 5));
    expect(read("1/5/30", "en-US").value).toBe(day(1930, 1, 5));
    expect(read("01.05.26", "de-DE").value).toBe(day(2026, 5, 1));
    expect(read("01.05.26", "en-US").value).toBe("01.05.26");
  });

  test("months by name, in English and in the reader's language", () => {
    const may = day(2026, 5, 5);
    for (const text of ["May 5", "5 May", "5-May", "May 5, 2026", "5 May 2026", "5-May-26", "may 5 2026"])
      expect([text, read(text).value]).toEqual([text, may]);
    expect(read("5. Mai 2026", "de-DE").value).toBe(may);
    expect(read("5 mai 2026", "fr-FR").value).toBe(may);
    expect(read("3 Sept 2026").value).toBe(day(2026, 9, 3));
    expect(read("May 2026")).toEqual({ value: day(2026, 5, 1), format: "mmm yyyy" });
    expect(read("February 3")).toEqual({ value: day(2026, 2, 3), format: "mmmm d" });
    for (const text of ["May", "Maybe 5", "May 32", "31 Feb 2026", "Batch 5"])
      expect(read(text)).toEqual({ value: text });
  });

  test("days that do not exist stay texts, and days before the calendar of the file", () => {
    for (const text of ["2026-02-30", "31.04.2026", "2026-13-01", "1899-12-31", "0000-00-00", "29.02.2026"])
      expect(read(text)).toEqual({ value: text });
    expect(read("1900-01-01").value).toBe(1);
    expect(read("1900-03-01").value).toBe(61);
    expect(read("2026-05-01", "en-US", true).value).toBe(day(2026, 5, 1) - 1462);
    expect(read("1903-12-31", "en-US", true).value).toBe("1903-12-31");
  });

  test("times of day", () => {
    expect(read("10:5")).toEqual({ value: (10 + 5 / 60) / 24, format: "h:mm" });
    expect(read("14:30:15").value).toBeCloseTo((14 + 30 / 60 + 15 / 3600) / 24, 12);
    expect(read("2:30 PM")).toEqual({ value: 14.5 / 24, format: "h:mm AM/PM" });
    expect(read("12 am").value).toBe(0);
    expect(read("36:00")).toEqual({ value: 1.5, format: "[h]:mm:ss" });
    for (const text of ["10:60", "5 A", "13:00 PM", "2026-05-01 25:00", "10:", ":5", "1:2:3:4"])
      expect(read(text)).toEqual({ value: text });
  });
});

test("errors, TRUE and FALSE are what they say, in any letters", () => {
  for (const error of ["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"]) {
    expect(read(error)).toEqual({ value: { error } });
    expect(read(error.toLowerCase())).toEqual({ value: { error } });
  }
  expect(read("true")).toEqual({ value: true });
  expect(read("False")).toEqual({ value: false });
  for (const text of ["#N/A!", "#SPILL!", "#ERROR!", "TRUE.", "n/a"]) expect(read(text)).toEqual({ value: text });
  expect(read("")).toEqual({ value: null });
  expect(read("  ")).toEqual({ value: "  " });
}); // prettier-ignore
