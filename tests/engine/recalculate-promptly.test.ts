import { expect, test, vi } from "vitest";
import { recalculate } from "../../src/engine/recalculate.js";
import { recalculatePromptly } from "../../src/engine/recalculate-promptly.js";
import { UniverEngine } from "../../src/engine/univer/univer-engine.js";
import { fakeFunctions } from "./fixture.js";
import { plain, workbook, type SheetSketch } from "./workbooks.js";

const compiledOnly: SheetSketch = {
  A1: 2,
  B1: plain("GYLE.DOUBLE(A1)"),
  C1: plain('IF(B1>3,"above "&B1,SUM(A1:B1))'),
  D1: plain("INDEX(GYLE.GROW(3,2),2,2)"),
};

const interpreters = async (sheet: SheetSketch): Promise<number> => {
  const read = vi.spyOn(UniverEngine.prototype, "read");
  try {
    const model = workbook({ S: sheet });
    const promptly = await recalculatePromptly(model, fakeFunctions());
    const times = read.mock.calls.length;
    expect(promptly.counts.recalculated).toBeGreaterThan(0);
    expect(promptly).toEqual(recalculate(model, fakeFunctions()));
    return times;
  } finally {
    read.mockRestore();
  }
};

test("a workbook of ours, operators and the usual functions needs no interpreter", async () => {
  expect(await interpreters(compiledOnly)).toBe(0);
});

test.each([
  ["a function that is the interpreter's", { E1: plain("IRR(A1:B1)+B1") }],
  ["a LET", { E1: plain("_xlfn.LET(_xlpm.x,B1,_xlpm.x*2)") }],
  [
    "an INDEX of several places at once, which shows late",
    { E1: plain("SUM(INDEX(A1:C1,1,A9))+B1"), A9: "1" },
  ],
])("%s is interpreted all the same", async (_, more) => {
  expect(await interpreters({ ...compiledOnly, ...more })).toBeGreaterThan(0);
});
