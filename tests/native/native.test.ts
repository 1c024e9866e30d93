// Native formulas as recalc calculates them, against two spreadsheets that others have written. More of them are
// asked by `npm run fuzz -- --native`.
import { describe, expect, test } from "vitest";
import { calculated } from "../../src/engine/univer-natives.js";
import { libreOffice as office } from "../support/tools.js";
import { plain, calculated as after, workbook } from "../engine/workbooks.js";
import { compareEngines, tally, told } from "./random-book.js";
import { notCompared, signatures } from "./signatures.js";

describe.runIf(office.present)("2,000 random formulas, beside LibreOffice and IronCalc", () => {
  test("the others never agree against ours, and no formula has two values", async () => {
    const { cases, torn } = await compareEngines(20_261_128, 2000);
    expect(cases.filter(({ verdict }) => verdict === "ours differs").map(told)).toEqual([]);
    expect(torn).toEqual([]);
    const counts = tally(cases);
    // Few are withheld, and most are as everybody has them: or the comparison would show nothing.
    expect(counts["all agree"]).toBeGreaterThan(1400);
    expect(counts["not calculated here"]).toBeLessThan(200);
  });
});

test("every function that is calculated is asked in random formulas", () => {
  const asked = (name: string): boolean => signatures.has(name) || notCompared.has(name);
  expect(calculated.names.filter((name) => !asked(name))).toEqual([]);
  expect([...signatures.keys(), ...notCompared].filter((name) => !calculated.has(name))).toEqual([]);
});

describe("a comparison with an error is that error, whatever was compared before", () => {
  const book = (value: string): ReturnType<typeof after> =>
    after(
      workbook({
        S: {
          A1: plain(value),
          B1: plain('IF(A1>=4.5,"in spec","too weak")'),
          C1: plain('IF(A1<4.5,"too weak","in spec")'),
          D1: plain("AND(A1>4,TRUE)"),
          E1: plain("SUMPRODUCT((A1:A2>4)*1)"),
          F1: plain('IF(A1<4.5,"too weak","in spec")'),
        },
      }),
    );

  test("an error of ours", () => {
    const error = { error: "#N/A" };
    const { at } = book("GYLE.FAIL()");
    expect(["B1", "C1", "D1", "E1", "F1"].map(at)).toEqual([error, error, error, error, error]);
  });

  // Text is more than any number.
  test('"" of ours', () => {
    const { at } = book('GYLE.IDENTITY("")');
    expect(["B1", "C1", "D1", "E1", "F1"].map(at)).toEqual(["in spec", "in spec", true, 1, "in spec"]);
  });

  test("a number of ours", () => {
    const { at } = book("GYLE.DOUBLE(2.1)");
    expect(["B1", "C1", "D1", "E1", "F1"].map(at)).toEqual(["too weak", "too weak", true, 1, "too weak"]);
  });
});

test("text that spells an error is a text", () => {
  const { at } = after(
    workbook({
      S: { A1: { text: "#N/A" }, B1: plain('IF(ISERROR(A1),"error",A1)&GYLE.IDENTITY("!")') },
    }),
  );
  expect(at("B1")).toBe("#N/A!");
});
