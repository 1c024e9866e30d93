import { describe, expect, test } from "vitest";
import { bookOf } from "../support/build-workbook.js";
import { folderWith, read, recalc, valuesIn } from "./command.js";

const cell = (address: string, formula: string, value: number | string): string =>
  typeof value === "number"
    ? `<c r="${address}"><f>${formula}</f><v>${value}</v></c>`
    : `<c r="${address}" t="str"><f>${formula}</f><v>${value}</v></c>`;

/** ABV was stored as 5; the text was written by a spreadsheet program that writes decimals with a comma. */
const german = bookOf(
  `<row r="1">${cell("A1", "GYLE.ABV(1.05,1.01)", 5)}${cell("B1", "A1*2", 10)}` +
    `${cell("C1", "TEXT(A1,&quot;0,0&quot;)", "5,0")}${cell("D1", "C1&amp;B1", "x")}</row>`,
);
/** Saved by a program that puts 0 beside every formula. */
const uncalculated = bookOf(
  `<row r="1">${cell("A1", "GYLE.ABV(1.05,1.01)", 0)}${cell("B1", "ROUND(A1,1)+1", 0)}</row>`,
);
const circle = bookOf(
  `<row r="1">${cell("A1", "GYLE.ABV(1.05,1.01)", 0)}${cell("B1", "GYLE.ABV(C1,1.01)", 4)}${cell("C1", "B1/4", 1)}` +
    `${cell("D1", "B1*2", 8)}</row>`,
);

describe("what depends on ours and cannot be proven from what is stored", () => {
  test("stays and is named with the reason, and counts under --strict", async () => {
    const folder = folderWith({ "log.xlsx": german });
    const { status, out } = await recalc(folder, "log.xlsx", "-o", "out.xlsx");
    expect(status).toBe(0);
    expect(out).toMatch(/S!C1 {2}note {2}.*"5,0" is stored\. The stored value was left as it was\./);
    expect(out).toMatch(/S!D1 {2}note {2}The formula depends on S!C1, which was left as it was\./);
    const at = await valuesIn(read(folder, "out.xlsx"));
    expect([at("S!C1"), at("S!D1")]).toEqual(["5,0", "x"]);
    expect(at("S!B1")).toBe(2 * Number(at("S!A1")));
    expect((await recalc(folder, "log.xlsx", "-o", "again.xlsx", "--strict")).status).toBe(3);
  });

  test("is written with --uncalculated, and the summary says so", async () => {
    const folder = folderWith({ "log.xlsx": uncalculated });
    expect((await recalc(folder, "log.xlsx", "-o", "out.xlsx")).out).toMatch(/S!B1 {2}note/);
    expect((await valuesIn(read(folder, "out.xlsx")))("S!B1")).toBe(0);
    const { status, out } = await recalc(folder, "log.xlsx", "-o", "all.xlsx", "--uncalculated", "--strict");
    expect(status).toBe(0);
    expect(out).toContain("written without a look at their stored values");
    const at = await valuesIn(read(folder, "all.xlsx"));
    expect(at("S!B1")).toBe(Math.round(Number(at("S!A1")) * 10) / 10 + 1);
  });
});

test("a circle of ours leaves the rest to be calculated, with a status of its own; no copy is made of it", async () => {
  const folder = folderWith({ "log.xlsx": circle });
  const { status, out } = await recalc(folder, "log.xlsx", "-o", "out.xlsx");
  expect(status).toBe(3);
  expect(out).toMatch(/S!B1 {2}note {2}The formula is part of a circular reference through S!B1/);
  const at = await valuesIn(read(folder, "out.xlsx"));
  expect(Number(at("S!A1"))).toBeGreaterThan(5);
  expect([at("S!B1"), at("S!C1"), at("S!D1")]).toEqual([4, 1, 8]);
  const copy = await recalc(folder, "log.xlsx", "--values");
  expect(copy.status).toBe(1);
  expect(copy.errors).toMatch(/has a circular reference: S!B1 → S!C1 → S!B1/);
});
