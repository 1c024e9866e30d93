// What is damaged: workbooks of the examples, one of another program's kind, and small ones with everything in them that matters.
import { readFileSync } from "node:fs";
import { buildBook, sheetXml } from "../support/build-workbook.js";
import { metadataXml, withMetadata } from "../support/metadata.js";

const cell = (address: string, content: string, more = ""): string =>
  `<c r="${address}"${more}>${content}</c>`;
const number = (address: string, value: number): string => cell(address, `<v>${value}</v>`);
const formula = (address: string, text: string, more = ""): string =>
  cell(address, `<f${more}>${text}</f><v>1</v>`);

const plain = buildBook({
  sheets: {
    S: sheetXml(
      `<row r="1">${number("A1", 1.048)}${number("B1", 1.011)}${formula("C1", "GYLE.ABV(A1,B1)")}${formula("D1", "C1*2")}</row>` +
        `<row r="2">${number("A2", 1052)}${number("B2", 1.012)}${formula("C2", "_xldudf_GYLE_ABV(A2,B2)")}${formula("D2", "SUM(C1:C2)")}</row>` +
        `<row r="3">${cell("A3", "<is><t>n/a</t></is>", ' t="inlineStr"')}${formula("C3", "GYLE.ABV(A3,B3)", ' t="shared" ref="C3:C4" si="0"')}</row>` +
        `<row r="4">${number("A4", 1.05)}${number("B4", 1.01)}${cell("C4", '<f t="shared" si="0"/><v>2</v>')}</row>`,
    ),
    Other: sheetXml(`<row r="1">${formula("A1", "GYLE.HYDROMETER(S!A1,20)+Beer")}</row>`),
  },
  behindSheets: '<definedNames><definedName name="Beer">S!$C$1</definedName></definedNames>',
});

const spilling = buildBook({
  sheets: {
    S: sheetXml(
      `<row r="1">${number("A1", 1.048)}${number("B1", 20)}${number("C1", 1.01)}${number("D1", 19)}` +
        `${cell("E1", '<f t="array" ref="E1:I2">GYLE.SEASON(A1:A2,B1:B2,C1:C2,D1:D2)</f><v>1</v>', ' cm="1"')}</row>` +
        `<row r="2">${number("A2", 1.05)}${number("B2", 21)}${number("C2", 1.012)}${number("D2", 18)}${number("E2", 1)}</row>` +
        `<row r="3">${formula("A3", "SUM(E1:I2)")}${formula("B3", "ROWS(E1#)")}</row>`,
    ),
  },
  ...withMetadata(metadataXml({ properties: ["1"], cells: [[1, 0]] })),
});

const chained = buildBook({
  sheets: {
    S: sheetXml(
      Array.from(
        { length: 60 },
        (_, i) =>
          `<row r="${i + 1}">${formula(`A${i + 1}`, i === 0 ? 'GYLE.CONVERT(1.05,"SG","P")' : `GYLE.CONVERT(A${i},"P","P")+0*A${i}`)}</row>`,
      ).join(""),
    ),
  },
});

const file = (path: string): Uint8Array => new Uint8Array(readFileSync(path));

/** By how often each comes. @param root folder of the project */
export function books(root: string): readonly Uint8Array[] {
  const [starter, season, log, fermentation] = [
    "examples/starter",
    "examples/season",
    "tests/workbooks/brew-log-existing",
    "examples/fermentation",
  ].map((name) => file(`${root}${name}.xlsx`)) as [Uint8Array, Uint8Array, Uint8Array, Uint8Array];
  return [
    ...Array.from({ length: 24 }, () => plain),
    ...Array.from({ length: 20 }, () => spilling),
    ...Array.from({ length: 3 }, () => chained),
    ...Array.from({ length: 6 }, () => starter),
    ...Array.from({ length: 4 }, () => season),
    ...Array.from({ length: 4 }, () => log),
    fermentation,
  ];
}
