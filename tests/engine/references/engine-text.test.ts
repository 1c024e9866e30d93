import { describe, expect, test } from "vitest";
import { Book } from "../../../src/engine/references/book.js";
import { engineText } from "../../../src/engine/references/engine-text.js";
import { translate } from "../../../src/engine/references/translate.js";
import { fakeFunctions } from "../fixture.js";
import { areaOf, workbook } from "../workbooks.js";

const book = new Book(
  workbook(
    { Sheet1: {}, "My Sheet": {}, Data: {} },
    {
      names: [
        { name: "Rate", refersTo: "0.25" },
        { name: "Input", refersTo: "Data!$B$2" },
        { name: "input", refersTo: "'My Sheet'!$C$3", sheet: "My Sheet" },
        { name: "Readings", refersTo: "Data!$A$1:$A$9" },
        { name: "Twice", refersTo: "Input*2" },
        { name: "Left.of", refersTo: "Data!A1" },
        { name: "Plus.one", refersTo: "_xlfn.LAMBDA(_xlpm.x,_xlpm.x+1)" },
        { name: "Endless", refersTo: "Endless+1" },
        { name: "Broken", refersTo: "#REF!" },
      ],
      tables: [
        {
          name: "Batches",
          sheet: "Data",
          area: areaOf("C3:F10"),
          headerRows: 1,
          totalsRows: 1,
          columns: ["og", "fg", "a 'b' [c]#@", "Notes"],
        },
        { name: "Bare", sheet: "Data", area: areaOf("H1:H4"), headerRows: 0, totalsRows: 0, columns: ["x"] },
      ],
    },
  ),
);
const functions = fakeFunctions();
const spills = (sheet: number, row: number, column: number) =>
  sheet === 0 && row === 0 && column === 4 ? areaOf("E1:F20") : undefined;

const around = { book, height: 1_048_576, width: 16_384, spilledFrom: spills };

function read(text: string, row = 4, column = 8, sheet = 0): string {
  const at = { sheet, row, column };
  return engineText(translate(text, at, book, functions), at, around).slice(1);
}

function obstacle(text: string): string | undefined {
  return translate(text, { sheet: 0, row: 4, column: 8 }, book, functions).obstacle;
}

describe("our functions", () => {
  test("are found by the file's spelling, the typed one, and any letter case", () => {
    for (const spelling of ["_xldudf_GYLE_KIND_OF", "GYLE.KIND.OF", "gyle.kind.of", "_XLDUDF_gyle_kind_of"]) {
      expect(read(`${spelling}(A1)`)).toBe("GYLE.KIND.OF(A1)");
    }
  });

  test("keep their names inside text, sheet names and other names untouched", () => {
    expect(read('"_xldudf_GYLE_ADD("&A1')).toBe('"_xldudf_GYLE_ADD("&A1');
    expect(read('\'My Sheet\'!A1&"a""GYLE.ADD(1)"')).toBe('\'My Sheet\'!A1&"a""GYLE.ADD(1)"');
  });

  test("are only those there are: underscores alone make no name", () => {
    expect(obstacle("_xldudf_GYLE_NO_SUCH(A1)")).toBe("There is no function _xldudf_GYLE_NO_SUCH.");
    expect(obstacle("GYLE_ADD(A1)")).toBeUndefined();
    expect(read("GYLE_ADD(A1)")).toBe("GYLE_ADD(A1)");
  });
});

describe("prefixes of files", () => {
  test("fall away from newer functions and from names that LET and LAMBDA declare", () => {
    expect(read("_xlfn._xlws.FILTER(A:A,B:B>1)")).toBe("FILTER(A:A,B:B>1)");
    expect(read("_xlfn.LET(_xlpm.x,2,_xlpm.x+1)")).toBe("LET(x,2,x+1)");
    expect(read("_xlfn.LAMBDA(_xlpm.x,_xlop.y,_xlpm.x)(1)")).toBe("LAMBDA(x,y,x)(1)");
  });

  test("ANCHORARRAY and # stand for the range that is filled now", () => {
    expect(read("SUM(_xlfn.ANCHORARRAY(E1))")).toBe("SUM(E1:F20)");
    expect(read("SUM(E1#)")).toBe("SUM(E1:F20)");
    expect(read("SUM($E$1#)")).toBe("SUM($E$1:$F$20)");
    expect(read("SUM(A1#)")).toBe("SUM(#REF!)");
  });

  test("SINGLE and @ take the cell that is level with the formula, and of anything else the first element", () => {
    expect(read("_xlfn.SINGLE(A1:A9)*2")).toBe("A5*2");
    expect(read("_xlfn.SINGLE(Data!$A$1:$Z$1)")).toBe("Data!I$1");
    expect(read("@A1:A9*2+@A1")).toBe("A5*2+A1");
    expect(read("_xlfn.SINGLE(A1:A3)+_xlfn.SINGLE(A1:B9)")).toBe("#VALUE!+#VALUE!");
    expect(read("_xlfn.SINGLE(GYLE.ADD(A1:A9,_xlfn.SINGLE(B1:B9)))")).toBe("INDEX(GYLE.ADD(A1:A9,B5),1,1)");
    expect(read("@GYLE.DOUBLE(A1:A9)&@Readings")).toBe("INDEX(GYLE.DOUBLE(A1:A9),1,1)&Data!$A5");
    expect(read("_xlfn.SINGLE(_xlfn.ANCHORARRAY(E1))*2")).toBe("#VALUE!*2");
  });

  test("numbers with an exponent are written out as powers of ten", () => {
    expect(read("1.5E-3*A1")).toBe("(1.5*10^-3)*A1");
  });

  test("numbers are written without a 0 behind their last decimal, which would make them text", () => {
    expect(read("A1+1.040")).toBe("A1+1.04");
    expect(read("1.50E3+0.0000001+12.0")).toBe("(1.5*10^3)+(1*10^-7)+12");
  });

  test("text that looks like a number stays text", () => {
    expect(read('"1,046"&A1')).toBe('("1,046"&"")&A1');
    expect(read('"2026-03-01"&"about 5"')).toBe('("2026-03-01"&"")&"about 5"');
  });
});

describe("structured references", () => {
  test.each([
    ["Batches[og]", "Data!$C$4:$C$9"],
    ["batches[OG]", "Data!$C$4:$C$9"],
    ["Batches[]", "Data!$C$4:$F$9"],
    ["Batches", "Data!$C$4:$F$9"],
    ["Batches[#All]", "Data!$C$3:$F$10"],
    ["Batches[#Data]", "Data!$C$4:$F$9"],
    ["Batches[#Headers]", "Data!$C$3:$F$3"],
    ["Batches[#Totals]", "Data!$C$10:$F$10"],
    ["Batches[[og]:[fg]]", "Data!$C$4:$D$9"],
    ["Batches[[#Headers],[og]:[fg]]", "Data!$C$3:$D$3"],
    ["Batches[[#Headers],[#Data],[fg]]", "Data!$D$3:$D$9"],
    ["Batches[[#Data],[#Totals],[fg]]", "Data!$D$4:$D$10"],
    ["Batches[[#Totals],[fg]]", "Data!$D$10"],
    ["Batches[a ''b'' '[c']'#'@]", "Data!$E$4:$E$9"],
    ["Batches[[#This Row],[og]]", "Data!$C5"],
    ["Batches[[#This Row],[og]:[fg]]", "Data!$C5:$D5"],
    ["Batches[#This Row]", "Data!$C5:$F5"],
    ["Bare[x]", "Data!$H$1:$H$4"],
  ])("%s are the cells %s", (text, cells) => {
    expect(read(text)).toBe(cells);
  });

  test("are an error where their part of the table, or their row, does not exist", () => {
    expect(read("Bare[#Headers]")).toBe("#REF!");
    expect(read("Bare[#Totals]")).toBe("#REF!");
    expect(read("Batches[nothing]")).toBe("#REF!");
    expect(read("Batches[[#This Row],[og]]", 2)).toBe("#VALUE!");
    expect(read("Batches[[#This Row],[og]]", 9)).toBe("#VALUE!");
  });

  test("to a table that is not there cannot be evaluated", () => {
    expect(obstacle("Nowhere[og]")).toBe('The table "Nowhere" is not in this workbook.');
  });
});

describe("defined names", () => {
  test.each([
    ["Rate*2", "0.25*2"],
    ["Input+1", "Data!$B$2+1"],
    ["INPUT+1", "Data!$B$2+1"],
    ["'My Sheet'!input", "'My Sheet'!$C$3"],
    ["SUM(Readings)", "SUM(Data!$A$1:$A$9)"],
    ["Twice", "(Data!$B$2*2)"],
    ["Broken", "#REF!"],
    ["[0]!Input", "Data!$B$2"],
    ["Plus.one(3)", "LAMBDA(x,x+1)(3)"],
  ])("%s is written out as %s", (text, expected) => {
    expect(read(text)).toBe(expected);
  });

  test("of a sheet come before those of the workbook on that sheet", () => {
    expect(read("Input", 0, 0, 1)).toBe("$C$3");
  });

  test("with references that are not fixed move along with the formula", () => {
    expect(read("Left.of", 4, 8)).toBe("Data!I5");
    expect(read("Left.of", 0, 0)).toBe("Data!A1");
  });

  test("that a LET declares itself hide those of the workbook", () => {
    expect(read("_xlfn.LET(_xlpm.rate,2,_xlpm.rate+1)")).toBe("LET(rate,2,rate+1)");
    expect(read("LET(Rate,2,Rate+1)")).toBe("LET(Rate,2,Rate+1)");
  });

  test("that lead back to themselves, or to nothing, cannot be evaluated", () => {
    expect(obstacle("Endless")).toBe('The name "Endless" refers to itself.');
    expect(obstacle("Unheard_of*2")).toBe('The name "Unheard_of" is not defined in this workbook.');
  });
});

test("references into other workbooks and through several sheets are obstacles", () => {
  expect(obstacle("[1]Sheet1!A1*2")).toBe('"[1]Sheet1!A1" points into another workbook.');
  expect(obstacle("SUM(Sheet1:Data!A1)")).toBe('"Sheet1:Data!A1" runs through several sheets.');
  expect(obstacle("[1]!name")).toBe('"[1]!name" points into another workbook.');
});

test("a reference to a sheet that is gone is #REF!, in both spellings of files", () => {
  expect(read("Gone!A1+1")).toBe("#REF!+1");
  expect(read("Sheet1!#REF!+1")).toBe("#REF!+1");
});

test("whole columns, whole rows, fixed edges and a range written backwards keep their meaning", () => {
  expect(read("SUM($A:B)+SUM(2:$3)+SUM(B2:$A$1)")).toBe("SUM($A:B)+SUM(2:$3)+SUM($A$1:B2)");
});

test("a function that LAMBDA's name calls is not taken for one of Excel's", () => {
  expect(read("_xlfn.LET(_xlpm.f,_xlfn.LAMBDA(_xlpm.x,_xlpm.x*2),_xlpm.f(3))")).toBe(
    "LET(f,LAMBDA(x,x*2),f(3))",
  );
});
