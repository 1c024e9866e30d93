import { expect, test } from "vitest";
import { Cells } from "../../../src/engine/compiled/cells.js";
import { compiled } from "../../../src/engine/compiled/compile.js";
import { NeedsInterpreter } from "../../../src/engine/compiled/needs-interpreter.js";
import { Grid } from "../../../src/engine/grid.js";
import { NotHere } from "../../../src/engine/native/argument.js";
import { Book } from "../../../src/engine/references/book.js";
import { knownMistake } from "../../../src/engine/references/known-mistakes.js";
import { translate } from "../../../src/engine/references/translate.js";
import { UniverEngine } from "../../../src/engine/univer/univer-engine.js";
import { Values, type FormulaValue } from "../../../src/engine/values.js";
import { randomFormulas } from "../../native/random-book.js";
import { fakeFunctions } from "../fixture.js";
import { type SheetSketch, workbook } from "../workbooks.js";

// What is compiled must come to what the interpreter comes to, which tests/native holds against two other spreadsheets: the
// same values to the last bit, the same errors with the same words, the same refusals.

const error = (code: string) => ({ error: code });
const data: SheetSketch = {
  ...{ A2: 1, A3: 2.5, A4: -3, A5: 0, A6: 1.046, A7: 1e-9, A8: 45000.25, A9: 7 },
  ...{ B2: "pale", B3: "Stout ale", B4: "", B5: "3", B6: "TRUE", B8: "1,046", B9: "#N/A" },
  ...{ C2: true, C3: false, C5: true, D2: 45000, D3: 45031.5, D4: 61, D5: 0.25 },
  ...{ E2: 0.1, E3: 0.2, E4: 0.3, F2: error("#N/A"), F3: error("#DIV/0!"), F4: error("#BUSY!"), F5: 12 },
  ...{ G2: "a", G3: 2, G4: true, H2: 1, H3: 2, H4: 3, H5: 5, H6: 8, H7: 13, H8: 21, H9: 34 },
  ...{ I2: "one", I3: "two", J2: 10, J3: 20, J4: -0 },
};
const model = workbook({ Formulas: {}, Data: data });
const book = new Book(model);
const functions = fakeFunctions();
const grid = Grid.of(model);
const at = { sheet: 0, row: 20, column: 3 };
const around = { book, height: grid.height, width: grid.width, spilledFrom: () => undefined };
const univer = new UniverEngine(book.sheetNames, functions);

/** What comes of it, so that it can be compared: a number to the last bit, an error with its words. */
function told(calculate: () => FormulaValue): unknown {
  try {
    const value = calculate();
    return value instanceof Values ? value.rows.map((row) => Array.from(row)) : value;
  } catch (thrown) {
    if (thrown instanceof NeedsInterpreter) throw thrown;
    return thrown instanceof NotHere || thrown instanceof Error ? `refused: ${thrown.message}` : thrown;
  }
}

type Both = { readonly compiled: unknown; readonly interpreted: unknown } | undefined;

/** Undefined where the formula is not compiled, or cannot be calculated at all. */
function bothWays(formula: string): Both {
  const translation = translate(formula, at, book, functions);
  if (translation.obstacle !== undefined || knownMistake(translation.tokens) !== undefined) return undefined;
  const step = compiled(translation, at, functions, around);
  if (!step) return undefined;
  try {
    const direct = told(() => step(new Cells(grid), at));
    univer.read(grid, () => false);
    const ready = univer.prepare(translation, at, around);
    return { compiled: direct, interpreted: told(() => ready(at)) };
  } catch (thrown) {
    if (thrown instanceof NeedsInterpreter) return undefined;
    throw thrown;
  }
}

test("random formulas come to the same", () => {
  const counts = { compiled: 0, left: 0 };
  const differing: unknown[] = [];
  for (const formula of randomFormulas(20261128, 4000)) {
    const both = bothWays(formula);
    counts[both ? "compiled" : "left"]++;
    if (both && !Object.is(JSON.stringify(both.compiled), JSON.stringify(both.interpreted)))
      differing.push({ formula, ...both });
  }
  expect(differing).toEqual([]);
  expect(counts.compiled).toBeGreaterThan(2500);
});

const written = [
  "-2^2",
  "-Data!A3^2",
  "2^-1",
  "2^3^2",
  "-Data!A3%",
  "50%^2",
  "1-2-3",
  "8/4/2",
  "2*3%",
  "1+2&3+4",
  '"a"&1=1&"a"',
  "1<2=TRUE",
  "--Data!A3",
  "-(-Data!A3)",
  "+Data!B2",
  "1E3",
  "1.5e-7*3",
  "123456789012345678901234567890",
  "1.50",
  ".5",
  "5.",
  "-TRUE",
  "-0",
  "0*-1",
  '"say ""hi"""',
  '"2026-03-01"',
  '"1,046"',
  '""',
  "IF(Data!A2>0,,2)",
  "IF(Data!A2<0,1)",
  "IF(Data!A2>0,Data!B7)",
  'IF(Data!B7="",1,2)',
  'IF(Data!B4="",1,2)',
  "Data!B7",
  "Data!B4",
  "Data!F2",
  "Data!F4",
  "Data!J4",
  "ISERROR(Data!F4)",
  "Data!A2:A4",
  "Data!A2:A4*2",
  "SUM(Data!A:A)",
  "COUNTA(Data!2:3)",
  "COUNTBLANK(Data!B1:B9)",
  "INDEX(Data!A2:A9,3)",
  "INDEX(Data!A2:B9,3,2)",
  "INDEX(Data!A2:B9,0,1)",
  "INDEX(Data!A2:B9,2,0)",
  "INDEX(Data!A2:B9,99,1)",
  "INDEX(Data!A2:B9,-1,1)",
  "INDEX(Data!2:2,2)",
  "AVERAGE(INDEX(Data!A2:B9,0,1))",
  "AVERAGE(INDEX(GYLE.GROW(3,2),0,2))",
  "INDEX(GYLE.GROW(3,2),3,1)",
  "INDEX(GYLE.GROW(3,2),2,0)",
  "INDEX(GYLE.GROW(3,2),0,0)",
  "INDEX(5,1)",
  'SUM(Data!A2,"3",TRUE)',
  "SUM(INDEX(Data!B2:B9,4),1)",
  "ROW()",
  "COLUMN()",
  "ROW(Data!C7)",
  "COLUMN(Data!C7)+1",
  "ROW(Data!A2:B4)",
  "COLUMN(Data!A2:B4)",
  "SUM(ROW(Data!A2:B4))",
  "ROWS(Data!A2:B4)",
  "COLUMNS(Data!A:C)",
  "ROWS(Data!A:A)",
  '"A"&ROW(Data!C7)-1',
  "GYLE.DOUBLE(ROW(Data!C7))",
  "GYLE.KIND.OF(ROW(Data!A2:B4))",
  "VLOOKUP(2.5,Data!$A:$H,8,FALSE)",
  'VLOOKUP("STOUT ALE",Data!$B:$H,2,FALSE)',
  "VLOOKUP(ROW(Data!$A5)-2,Data!$H:$J,2,FALSE)",
  "MATCH(13,Data!H2:H9,0)",
  "HLOOKUP(1,Data!A2:H9,3,FALSE)",
  "GYLE.DOUBLE(Data!A2)",
  "GYLE.DOUBLE(Data!A2:A4)",
  "GYLE.DOUBLE(-1.5)",
  'GYLE.FAIL("so")',
  "GYLE.FAIL()",
  "GYLE.KIND.OF()",
  "GYLE.KIND.OF(Data!B7)",
  'GYLE.KIND.OF("")',
  "GYLE.KIND.OF(Data!F2)",
  "GYLE.KIND.OF(Data!F4)",
  "GYLE.KIND.OF(Data!A1:C4)",
  "GYLE.GROW(2,)",
  "GYLE.ADD(Data!A2:A4,1)",
  "GYLE.DOUBLE(GYLE.DOUBLE(Data!A2))",
  "IFERROR(GYLE.DOUBLE(Data!B2),-1)",
  "GYLE.HALF(Data!A2:A4)",
  'GYLE.JOIN("a",1,TRUE)',
  'IF(Data!A2="","",GYLE.DOUBLE(Data!A2))',
];

test.each(written)("%s comes to the same", (formula) => {
  const both = bothWays(formula);
  expect(both).toBeDefined();
  expect(both?.compiled).toEqual(both?.interpreted);
  expect(Object.is(both?.compiled, both?.interpreted) || typeof both?.compiled !== "number").toBe(true);
});
