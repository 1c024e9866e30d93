import { describe, expect, test } from "vitest";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { formulaCopy } from "../../../src/workbook/sheet/formula-copy.js";
import { parseAddress } from "../../../src/cells/a1.js";
import type { Formula } from "../../../src/workbook/model.js";
import { bookOf, type Book } from "../../support/build-workbook.js";
import { metadataXml, withMetadata } from "../../support/metadata.js";

async function formulas(rows: string, more: Omit<Book, "sheets"> = {}): Promise<(Formula | undefined)[]> {
  const cells = (await openWorkbook(bookOf(rows, more))).model.sheets[0]?.cells ?? [];
  return cells.map(({ formula }) => formula);
}

const plain = (text: string): Formula => ({ text, kind: "plain" });
const row1 = (cells: string) => `<row r="1">${cells}</row>`;

describe("formulas are read", () => {
  test("plain ones, decoded, whatever else their element says", async () => {
    expect(
      await formulas(
        row1('<c r="A1"><f aca="false">IF(B1=&quot;&quot;,"a&lt;b",_xldudf_GYLE_ABV(C1,D1))</f><v>1</v></c>'),
      ),
    ).toEqual([plain('IF(B1="","a<b",_xldudf_GYLE_ABV(C1,D1))')]);
    expect(
      await formulas(row1('<c r="A1"><f>"_x005F_x0041_"</f></c><c r="B1"><f><![CDATA[1<2]]></f></c>')),
    ).toEqual([plain('"_x0041_"'), plain("1<2")]);
  });

  test("an empty formula element is no formula", async () => {
    expect(await formulas(row1('<c r="A1"><f/><v>1</v></c><c r="B1"><f ca="1"></f></c>'))).toEqual([
      undefined,
    ]);
  });

  test("a data table is left as values", async () => {
    const f = '<f t="dataTable" ref="A1:A3" dt2D="0" dtr="0" r1="C1">ignored</f>';
    expect(await formulas(row1(`<c r="A1">${f}<v>1</v></c>`))).toEqual([undefined]);
  });
});

describe("array formulas", () => {
  const cell = (attributes: string) =>
    row1(`<c r="B1"${attributes}><f t="array" ref="B1:C4">ROW(1:4)</f><v>1</v></c>`);
  const area = { top: 0, left: 1, bottom: 3, right: 2 };
  const kindOf = async (attributes: string, more: Omit<Book, "sheets"> = {}) =>
    (await formulas(cell(attributes), more))[0]?.kind;

  test("fill a fixed area without metadata", async () => {
    expect(await formulas(cell(""))).toEqual([{ text: "ROW(1:4)", kind: "array", area }]);
    expect(await kindOf(' cm="1"')).toBe("array");
  });

  test("spill when their metadata is that of a dynamic array", async () => {
    const more = withMetadata(metadataXml({ properties: ["1"], cells: [[1, 0]] }));
    expect(await formulas(cell(' cm="1"'), more)).toEqual([{ text: "ROW(1:4)", kind: "spill", area }]);
    expect(await kindOf("", more)).toBe("array");
    expect(await kindOf(' cm="0"', more)).toBe("array");
    expect(await kindOf(' cm="2"', more)).toBe("array");
  });

  test("and only then: the number leads through two lists to the property", async () => {
    const properties = ["0", "true", "1"];
    const cells: [number, number][] = [
      [2, 0],
      [2, 1],
      [1, 1],
      [2, 2],
      [2, 3],
      [3, 1],
    ];
    const more = withMetadata(metadataXml({ typesBefore: ["XLOTHER"], properties, cells }));
    const kinds = await Promise.all(cells.map((_, index) => kindOf(` cm="${index + 1}"`, more)));
    expect(kinds).toEqual(["array", "spill", "array", "spill", "array", "array"]);
  });

  test("without a readable area fill their own cell", async () => {
    expect(await formulas(row1('<c r="C1"><f t="array" ref="?">1</f></c>'))).toEqual([
      { text: "1", kind: "array", area: { top: 0, left: 2, bottom: 0, right: 2 } },
    ]);
  });
});

describe("shared formulas are written out for each cell", () => {
  test("that refers to them, in whatever order and more than one at a time", async () => {
    const rows =
      '<row r="2"><c r="C2"><f t="shared" ref="C2:D3" si="0">A2*$B2+B$1</f><v>1</v></c><c r="D2"><f t="shared" si="0"/><v>2</v></c>' +
      '<c r="E2"><f t="shared" si="7"/></c></row>' +
      '<row r="3"><c r="C3"><f t="shared" si="0"></f></c><c r="E3"><f t="shared" ref="E2:E3" si="7">SUM(A3:B3)</f></c></row>';
    expect(await formulas(rows)).toEqual(
      ["A2*$B2+B$1", "B2*$B2+C$1", "SUM(A2:B2)", "A3*$B3+B$1", "SUM(A3:B3)"].map(plain),
    );
  });

  test("and a number that is used again means the later text from there on", async () => {
    const rows =
      '<row r="1"><c r="A1"><f t="shared" ref="A1:A2" si="0">B1</f></c></row><row r="2"><c r="A2"><f t="shared" si="0"/></c></row>' +
      '<row r="5"><c r="A5"><f t="shared" ref="A5:A6" si="0">C5+1</f></c></row><row r="6"><c r="A6"><f t="shared" si="0"/></c></row>';
    expect(await formulas(rows)).toEqual(["B1", "B2", "C5+1", "C6+1"].map(plain));
  });

  test("and a cell with its own text beside the number has that text", async () => {
    const rows =
      '<row r="1"><c r="A1"><f t="shared" ref="A1:A2" si="0">B1</f></c></row><row r="2"><c r="A2"><f t="shared" si="0">B2*2</f></c></row>';
    expect(await formulas(rows)).toEqual(["B1", "B2*2"].map(plain));
  });
});

describe("a formula copied to another cell", () => {
  const copied = (text: string, from: string, to: string) => {
    const [a, b] = [parseAddress(from), parseAddress(to)];
    if (!a || !b) throw new Error("no such cell");
    return formulaCopy(text, a.row, a.column)(b.row, b.column);
  };

  test.each([
    ["A1+$B$2+C$3+$D4", "E5", "F6", "B2+$B$2+D$3+$D5"],
    ["SUM(A:A,$B:C,1:1,$2:3)", "F1", "G2", "SUM(B:B,$B:D,2:2,$2:4)"],
    ["A1:B$3", "D1", "D2", "A2:B$3"],
    ["A5:A$3", "F1", "F6", "A$3:A10"],
    ['"A1"&A1&"say ""A1"""', "B1", "B3", '"A1"&A3&"say ""A1"""'],
    ["Sheet2!A1+'My A1 sheet'!A1+'It''s!'!$A1", "C1", "D2", "Sheet2!B2+'My A1 sheet'!B2+'It''s!'!$A2"],
    ["'A1'!B2+'RC'!B2+'2024'!B2", "C1", "C2", "'A1'!B3+'RC'!B3+'2024'!B3"],
    ["[1]Sheet1!A1+'[2]b c'!A1+[1]!rate", "C1", "C2", "[1]Sheet1!A2+'[2]b c'!A2+[1]!rate"],
    ["SUM(Sheet1:Sheet3!A1)+SUM('a b:c d'!A1:B2)", "D1", "D2", "SUM(Sheet1:Sheet3!A2)+SUM('a b:c d'!A2:B3)"],
    ["Sheet1!A1:Sheet1!B2", "D1", "D2", "Sheet1!A2:Sheet1!B3"],
    ["LOG10(A1)+ATAN2(A1,1)+DEC2BIN(A1)", "B1", "B2", "LOG10(A2)+ATAN2(A2,1)+DEC2BIN(A2)"],
    ["Brews[[#This Row],[A1]]+Brews[OG]", "B1", "B2", "Brews[[#This Row],[A1]]+Brews[OG]"],
    ["R+C+R1C1x+og_1+a1.b+RC1", "E1", "E2", "R+C+R1C1x+og_1+a1.b+RC2"],
    ["LET(x,A1,x*2)+LAMBDA(y,y+A1)(3)", "B1", "B2", "LET(x,A2,x*2)+LAMBDA(y,y+A2)(3)"],
    ["A1:INDEX(B:B,3)", "C1", "C2", "A2:INDEX(B:B,3)"],
    ["_xlfn.ANCHORARRAY(A1)+_xlfn.SINGLE(A1:A3)", "C1", "C2", "_xlfn.ANCHORARRAY(A2)+_xlfn.SINGLE(A2:A4)"],
    ["_xldudf_GYLE_ABV(A1,B1)", "C1", "C2", "_xldudf_GYLE_ABV(A2,B2)"],
    ["#REF!+Sheet1!#REF!+A1", "C1", "C2", "#REF!+Sheet1!#REF!+A2"],
    ['{1,2;"A1",4}*A1%-1E5', "C1", "C2", '{1,2;"A1",4}*A2%-1E5'],
    [" A1 +\n B1 ", "C1", "C2", " A2 +\n B2 "],
    ["(A1,B1) C1:D2", "F1", "F2", "(A2,B2) C2:D3"],
  ])("%j from %s to %s is %j", (text, from, to, expected) => {
    expect(copied(text, from, to)).toBe(expected);
  });

  test("wraps round the edges of the sheet, as shared formulas in Excel do", () => {
    expect(copied("A1", "B2", "A1")).toBe("XFD1048576");
    expect(copied("A1048576+XFD1", "C1", "D2")).toBe("B1+A2");
  });

  test("to its own cell is the same formula", () => {
    const text = "SUM($A1:B$2)*'x y'!C3+IF(\"A1\"=D4,[1]T!E5,#N/A)";
    expect(copied(text, "H8", "H8")).toBe(text);
  });
});
