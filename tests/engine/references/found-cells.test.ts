import { describe, expect, test } from "vitest";
import type { CellValue } from "../../../src/workbook/model.js";
import { fromCell } from "../../../src/engine/grid.js";
import { alikeValues } from "../../../src/engine/values.js";
import { libreOffice } from "../../support/tools.js";
import { libreOfficeResults } from "../libreoffice.js";
import { answer, array, areaOf, calculated, plain, spill, workbook } from "../workbooks.js";

const data = {
  A1: 1, B1: 10, C1: "B2", D1: "Data!B2",
  A2: 2, B2: 20, C2: "R2C2", D2: "Data!R2C2",
  A3: 3, B3: 30, C3: "A1:B2", D3: 2,
  A4: 4, B4: 40, C4: "$A$3", D4: -1,
}; // prettier-ignore

/** LibreOffice and Excel agree on these. */
const forms = [
  'INDIRECT("Data!A2")', 'INDIRECT("Data!$A$2")', 'INDIRECT("data!a2")', 'INDIRECT("\'Data\'!B3")', "INDIRECT(Data!D1)", 'INDIRECT("Data!A"&Data!D3)',
  'SUM(INDIRECT("Data!A1:B2"))', 'SUM(INDIRECT("Data!A1"):INDIRECT("Data!B3"))', 'SUM(INDIRECT("Data!A1:A"&Data!D3+1))', 'SUM(INDIRECT("Data!"&Data!C3))',
  'INDIRECT("Data!R2C2",FALSE)', "INDIRECT(Data!D2,FALSE)", 'INDIRECT("Data!R2C2",0)', 'SUM(INDIRECT("Data!R1C1:R3C2",FALSE))', 'SUM(INDIRECT("Data!A:A"))', 'SUM(INDIRECT("Data!1:2"))',
  'INDIRECT("Data!A2",TRUE)', 'INDIRECT("Data!A2",1)', 'ISERROR(INDIRECT("Nowhere!A1"))', 'ISERROR(INDIRECT(""))', 'ISERROR(INDIRECT("Data!R2C2"))',
  'IFERROR(INDIRECT("nothing"),"-")', 'INDIRECT(INDIRECT("Data!D1"))', 'ROW(INDIRECT("Data!B7"))', 'COLUMN(INDIRECT("Data!C1"))', 'ROWS(INDIRECT("Data!A1:B9"))', 'SUM(INDIRECT("Data!A1:A2"),INDIRECT("Data!B4"))',
  "OFFSET(Data!A1,1,1)", "OFFSET(Data!A1,1.9,0)", "OFFSET(Data!A3,-1.5,0)", "SUM(OFFSET(Data!A1,0,0,3,2))", "SUM(OFFSET(Data!A1:B2,1,0))", "SUM(OFFSET(Data!A1:A2,1,0,,2))",
  "SUM(OFFSET(Data!A1,0,0,Data!D3,1))", "ISERROR(OFFSET(Data!A1,-1,0))", "ISERROR(OFFSET(Data!A1,0,0,0,1))", "OFFSET(Data!A2,Data!D4,)", "SUM(OFFSET(Data!$A$1,,,2,))", "OFFSET(OFFSET(Data!A1,1,0),1,1)", "SUM(OFFSET(Data!A1,0,0):OFFSET(Data!A1,2,1))",
  'OFFSET(INDIRECT("Data!A1"),2,1)', "OFFSET(INDEX(Data!A1:B4,2,1),1,1)", "COUNT(OFFSET(Data!A1,0,0,COUNT(Data!A:A),1))", "SUM(Data!A1:INDEX(Data!B1:B4,3))", "SUM(INDEX(Data!A1:A4,2):INDEX(Data!A1:A4,3))", "SUM(Data!A1:INDEX(Data!A:B,2,2))",
  "SUM(INDEX(Data!A1:B4,0,2):Data!A4)", "ISERROR(SUM(Data!A1:INDEX(Data!A1:A4,9)))", "SUM(Data!A1:OFFSET(Data!A1,2,0))", "AVERAGE(OFFSET(Data!B1,MATCH(2,Data!A1:A4,0)-1,0,2,1))", 'IF(TRUE,INDIRECT("Data!B1"),INDIRECT("x"))', 'SUMPRODUCT(INDIRECT("Data!A1:A3")*OFFSET(Data!B1,0,0,3,1))',
  'VLOOKUP(3,INDIRECT("Data!A1:B4"),2,FALSE)', 'MATCH(30,OFFSET(Data!B1,0,0,4,1),0)', 'SUMIF(INDIRECT("Data!A1:A4"),">2",OFFSET(Data!B1,0,0,4,1))', 'COUNTIF(OFFSET(Data!A1,0,0,4,1),"<3")', "SUBTOTAL(9,OFFSET(Data!A1,0,0,3,1))", 'INDIRECT("Data!A"&ROW(Data!A2))', 'INDIRECT(ADDRESS(2,2,1,1,"Data"))',
]; // prettier-ignore

describe.runIf(libreOffice.present)("beside LibreOffice", () => {
  test("cells that are found by calculation are the same ones", async () => {
    const theirs = await libreOfficeResults(forms, data);
    const different = forms.flatMap((formula, i): object[] => {
      const { value, refusal } = answer(formula, data);
      const other = theirs[i] ?? null;
      const isSame = refusal === undefined && alikeValues(fromCell(value), fromCell(other));
      return isSame ? [] : [{ formula, ours: value, refusal, libreOffice: other }];
    });
    expect(different).toEqual([]);
  });
});

/** The stored values belong to what ours gave before: A1 was 1. */
const beside = (formula: string, stored: CellValue, more: object = {}) =>
  calculated(
    workbook(
      {
        Log: {
          A1: plain("GYLE.DOUBLE(2)", 1),
          B1: 7,
          B2: 8,
          C1: "A1",
          D1: plain("B1*1", 7),
          F5: plain(formula, stored),
        },
        Other: { A1: 50, A2: "Log!A1" },
      },
      {
        names: [
          { name: "Ours", refersTo: "Log!$A$1" },
          { name: "Theirs", refersTo: "Log!$B$1:$B$2" },
          { name: "Moves", refersTo: "Log!A1" },
          { name: "Found", refersTo: 'INDIRECT("Log!A1")' },
          { name: "Back", refersTo: "OFFSET(Log!$B$1,0,-1)" },
        ],
        tables: [
          {
            name: "T",
            sheet: "Log",
            area: areaOf("A1:B2"),
            headerRows: 0,
            totalsRows: 0,
            columns: ["x", "y"],
          },
        ],
        ...more,
      },
    ),
  );

describe("a formula that finds its cells", () => {
  test.each([
    ['INDIRECT("A1")', 1, 4],
    ["INDIRECT(C1)", 1, 4],
    ['INDIRECT("R1C1",FALSE)', 1, 4],
    ['INDIRECT("R[-4]C[-5]",FALSE)', 1, 4],
    ['INDIRECT("r1c1",)', 1, 4],
    ['INDIRECT("Ours")+1', 2, 5],
    ['SUM(INDIRECT("T"))', 16, 19],
    ['SUM(INDIRECT("T[x]"))', 1, 4],
    ['INDIRECT(INDIRECT("Other!A2"))', 1, 4],
    ["Found*2", 2, 8],
    ["Back*2", 2, 8],
    ["OFFSET(B1,0,-1)", 1, 4],
    ["SUM(OFFSET(B2,-1,-1,2,2))", 16, 19],
    ["SUM(OFFSET(B2,0,0,-2,-2))", 16, 19],
    ["SUM(B2:OFFSET(B1,0,-1))", 16, 19],
    ["SUM(B2:INDEX(A1:B2,1,1))", 16, 19],
    ['INDIRECT("A"&A1)', 1, 0],
  ])("%s is written where that leads to ours", (formula, stored, expected) => {
    const after = beside(formula, stored);
    expect(after.at("F5")).toBe(expected);
    expect(after.notes).toEqual([]);
  });

  test.each([
    ['INDIRECT("B1")', 1],
    ["OFFSET(A1,0,1)", 1],
    ['INDIRECT("Other!A1")', 1],
    ["SUM(OFFSET(A1,0,1,2,1))", 1],
    ["OFFSET(A1,0,1)*NOW()", 1],
    ['SUM(INDIRECT("Theirs"))', 1],
    ['SUM(INDIRECT("T[y]"))', 1],
    ["SUM(B1:INDEX(B:B,2))", 1],
    ["SUM(OFFSET(A1,{0,1},1))", 1],
    ['SUM(INDIRECT({"B1","B2"}))', 1],
    ['ROW(INDIRECT("A1"))', 99],
    ['IF(B1=7,INDIRECT("B2"),0)', 1],
    ["SUM(OFFSET(D1,0,0))", 1],
  ])(
    "%s is neither written nor mentioned where that leads elsewhere, though its stored value is wrong",
    (formula, stored) => {
      const after = beside(formula, stored);
      expect(after.changed).toEqual(["A1"]);
      expect(after.notes).toEqual([]);
    },
  );

  test.each([
    ["SUM(OFFSET(B1,{0,1},-1))", 1],
    ['SUM(INDIRECT({"A1","B1"}))', 8],
    ['INDIRECT("[other.xlsx]Log!A1")', 1],
    ['INDIRECT("Moves")', 1],
    ['_xlfn.LET(_xlpm.x,"A1",INDIRECT(_xlpm.x))', 1],
    ['SUM(INDIRECT("Log:Other!A1"))', 51],
    ['INDIRECT("A1")*1', 2],
    ['NO.SUCH(INDIRECT("A1"))', 2],
  ])(
    "%s is kept with a reason where it may lead to ours and is not followed, or not proven",
    (formula, stored) => {
      const after = beside(formula, stored);
      expect(after.changed).toEqual(["A1"]);
      expect(after.notes).toMatchObject([{ row: 4, column: 5, kind: "left-as-it-was" }]);
      expect(after.notes[0]?.message).not.toBe("");
    },
  );

  test("follows what it finds after a change, and what another one finds", () => {
    const after = calculated(
      workbook({
        S: {
          A1: plain("GYLE.DOUBLE(1)", 1),
          B1: 10,
          B2: plain("GYLE.DOUBLE(B1)", 11),
          B3: 30,
          C1: plain('INDIRECT("B"&A1)', 10),
          D1: plain("OFFSET(C1,0,0)+1", 11),
          E1: plain('INDIRECT("D1")*2', 22),
        },
      }),
    );
    expect(["C1", "D1", "E1"].map((cell) => after.at(cell))).toEqual([20, 21, 42]);
  });

  test("is no circular reference for picking its cells from around itself", () => {
    const after = calculated(
      workbook({
        S: {
          A1: "=GYLE.DOUBLE(1)",
          A2: 5,
          A3: plain("SUM(A$1:INDEX(A:A,ROW()-1))"),
          B1: "=GYLE.DOUBLE(2)",
          B3: plain("SUM(B1:OFFSET(B3,-1,0))"),
          B4: plain('SUM(INDIRECT("B1:B"&ROW()-1))'),
        },
      }),
    );
    expect(after.cycles).toEqual([]);
    expect(["A3", "B3", "B4"].map((cell) => after.at(cell))).toEqual([7, 4, 8]);
  });

  test("that finds itself is a circular reference", () => {
    const after = calculated(
      workbook({ S: { A1: plain('GYLE.DOUBLE(1)+INDIRECT("A1")', 3), B1: "=GYLE.DOUBLE(1)" } }),
    );
    expect(after.cycles).toHaveLength(1);
    expect([after.at("A1"), after.at("B1")]).toEqual([3, 2]);
  });

  test("fills an area or spills as others do", () => {
    const after = calculated(
      workbook({
        S: {
          A1: spill("GYLE.GROW(3)", "A1:A2", 1),
          A2: 2,
          C1: spill("OFFSET(A1,0,0,COUNT(A1:A9),1)*10", "C1:C2", 10),
          C2: 20,
          E1: array('INDIRECT("A1:A2")', "E1:E2", 1),
          E2: 2,
        },
      }),
    );
    expect(["C1", "C2", "C3", "E2"].map((cell) => after.at(cell))).toEqual([10, 20, 30, 2]);
  });
});
