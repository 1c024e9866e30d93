import { describe, expect, test } from "vitest";
import { cellContent, CellError, Unnamed } from "../../../src/functions/contract/cell-value.js";

const codeOf = (raw: unknown): unknown => {
  const content = cellContent(raw);
  return content instanceof CellError ? content.code : content;
};

describe("what a host hands over for a cell", () => {
  test("is itself where it is a number, a text or a truth value", () => {
    for (const plain of [0, -1.5, "text", " text ", "0", true, false]) expect(cellContent(plain)).toBe(plain);
  });

  test("is nothing where it is blank in any way", () => {
    for (const blank of [
      undefined,
      null,
      "",
      "  ",
      "\t",
      {},
      [],
      { type: "Empty", basicValue: "" },
      Symbol("x"),
    ])
      expect(cellContent(blank)).toBeUndefined();
  });

  test("is an error where it is a number that no cell can hold", () => {
    for (const none of [NaN, Infinity, -Infinity]) expect(codeOf(none)).toBe("#NUM!");
  });

  test("is the error of another cell, under a code that can go out again", () => {
    for (const code of ["#VALUE!", "#N/A", "#DIV/0!", "#NUM!", "#NULL!"]) {
      expect(codeOf({ code })).toBe(code);
      expect(codeOf({ type: "Error", basicValue: code })).toBe(code);
    }
    for (const code of ["#REF!", "#NAME?", "#SPILL!"]) {
      expect(codeOf({ code })).toBe("#VALUE!");
      expect(codeOf({ type: "Error", basicValue: code })).toBe("#VALUE!");
    }
    expect(codeOf(new CellError("#N/A", "why"))).toBe("#N/A");
  });

  test("is the basic value of a rich one, which is no error for having a code", () => {
    expect(cellContent({ type: "FormattedNumber", basicValue: 1.048 })).toBe(1.048);
    expect(cellContent({ type: "String", basicValue: "#N/A" })).toBe("#N/A");
    expect(cellContent({ code: "EUR", basicValue: 12 })).toBe(12);
    expect(cellContent({ code: 7, basicValue: 12 })).toBe(12);
    expect(cellContent({ basicValue: { basicValue: 12 } })).toBeUndefined();
    expect(cellContent({ basicValue: true })).toBe(true);
  });

  test("keeps a mark of an empty cell among named ones", () => {
    const mark = new Unnamed("#VALUE!", "empty");
    expect(cellContent(mark)).toBe(mark);
  });
});
