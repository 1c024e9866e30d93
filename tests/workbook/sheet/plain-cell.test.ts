import { describe, expect, test } from "vitest";
import type { CellValue } from "../../../src/workbook/model.js";
import { editCell } from "../../../src/workbook/sheet/cell-patch.js";
import { plainCell } from "../../../src/workbook/sheet/plain-cell.js";
import { splice } from "../../../src/workbook/xml/xml-splice.js";

const formula = "<f>A1&amp;&quot;x&quot;</f>";
const plain = [
  `<c r="A1">${formula}</c>`,
  `<c r="A1">${formula}<v>1</v></c>`,
  `<c r="AB12" s="3">${formula}<v>1</v></c>`,
  `<c r="A1" s="3" t="str">${formula}<v>x &lt; y</v></c>`,
  `<c r="A1" t="str">${formula}<v xml:space="preserve"> x </v></c>`,
  `<c r="A1" t="n">${formula}<v>1</v></c>`,
  `<c r="A1" s="3" t="n">${formula}<v/></c>`,
  `<c r="A1" t="b">${formula}<v>1</v></c>`,
  `<c r="A1" t="e">${formula}<v>#N/A</v></c>`,
  `<c r="A1" s="3"><f t="shared" si="0"/><v>1</v></c>`,
  `<c r="A1"><f t="shared" ref="A1:A9" si="0">B1</f><v>1</v></c>`,
  `<c r="A1"><f/></c>`,
];
const others = [
  `<c r="A1"/>`,
  `<c r="A1"><v>1</v></c>`,
  `<c r="A1" vm="1">${formula}<v>1</v></c>`,
  `<c r="A1" cm="1"><f t="array" ref="A1:A2">B1</f><v>1</v></c>`,
  `<c r="A1" t="s"><v>1</v></c>`,
  `<c t="str" r="A1">${formula}<v>1</v></c>`,
  `<c r="A1">${formula}${formula}<v>1</v></c>`,
  `<c r="A1">${formula}<v>1</v><v>2</v></c>`,
  `<c r="A1"><v>1</v>${formula}</c>`,
  `<c r="A1">${formula}<v>1</v><extLst/></c>`,
  `<c r="A1"> ${formula}<v>1</v></c>`,
  `<c r='A1'>${formula}<v>1</v></c>`,
  `<c r="A1">${formula}<v><!-- --></v></c>`,
  `<c r="A1">${formula}<is><t>x</t></is></c>`,
  `<x:c r="A1"><x:f>B1</x:f></x:c>`,
];
const values: CellValue[] = [
  null,
  0,
  -1.5e-7,
  42,
  true,
  false,
  "",
  " a ",
  'a<b>&"c"\r\n',
  { error: "#N/A" },
  { error: "#SPILL!" },
];

describe.each(plain)("%s", (xml) => {
  test.each(values)("gets %j as it does when it is taken apart", (value) => {
    const task = {
      row: 0,
      column: 0,
      // Whatever it held, it was something else.
      stored: { row: 0, column: 0, value: "something else", formula: { text: "B1", kind: "plain" as const } },
      value,
      formula: { to: "keep" as const },
    };
    const { edits, formulaChanged } = editCell("sheet", xml, "", task, undefined);
    expect(plainCell(xml, value)).toBe(splice(xml, edits));
    expect(formulaChanged).toBe(false);
  });
});

test.each(others)("%s is taken apart", (xml) => {
  expect(plainCell(xml, 1)).toBeUndefined();
});
