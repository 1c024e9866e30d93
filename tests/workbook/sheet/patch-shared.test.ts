import { describe, expect, test } from "vitest";
import type { Formula } from "../../../src/workbook/model.js";
import { sheetXml } from "../../support/build-workbook.js";
import { patchedSheet } from "../../support/patched.js";

const plain = (text: string): Formula => ({ text, kind: "plain" });

describe("a cell that holds a shared formula for others", () => {
  const dependant = (r: string, si = 0) => `<c r="${r}"><f t="shared" si="${si}"/><v>0</v></c>`;
  const rows = (a1: string, a2: string, a3: string) =>
    sheetXml(`<row r="1">${a1}</row><row r="2">${a2}</row><row r="3">${a3}</row>`);
  const a1 = '<c r="A1"><f t="shared" ref="A1:A3" si="0">B1*2</f><v>0</v></c>';
  const shared = rows(
    a1,
    dependant("A2"),
    '<c r="A3" s="1"><f ca="1" ref="A3" si="0" t="shared"></f><v>0</v></c>',
  );
  const own2 = '<c r="A2"><f>B2*2</f><v>0</v></c>';
  const own3 = '<c r="A3" s="1"><f ca="1">B3*2</f><v>0</v></c>';

  test("may change its value alone", async () => {
    expect(await patchedSheet(shared, [{ row: 0, column: 0, value: 9 }])).toBe(
      shared.replace("<v>0</v>", "<v>9</v>"),
    );
  });

  test("leaves them their own when it is replaced", async () => {
    expect(await patchedSheet(shared, [{ row: 0, column: 0, value: 0, formula: plain("C1") }])).toBe(
      rows('<c r="A1"><f>C1</f><v>0</v></c>', own2, own3),
    );
  });

  test("leaves them their own when it is removed, with changes to them brought in", async () => {
    const changes = [
      { row: 1, column: 0, value: 5 },
      { row: 2, column: 0, value: 0, formula: plain("D3") },
      { row: 0, column: 0, value: null, formula: null },
    ];
    expect(await patchedSheet(shared, changes)).toBe(
      rows('<c r="A1"></c>', own2.replace("<v>0</v>", "<v>5</v>"), '<c r="A3" s="1"><f>D3</f><v>0</v></c>'),
    );
  });

  test("is left alone when one of them is replaced", async () => {
    expect(await patchedSheet(shared, [{ row: 1, column: 0, value: 0, formula: plain("D2") }])).toBe(
      shared.replace(dependant("A2"), '<c r="A2"><f>D2</f><v>0</v></c>'),
    );
  });

  test("is not touched by a formula that says the same", async () => {
    const same = [0, 1, 2].map((row) => ({ row, column: 0, value: 0, formula: plain(`B${row + 1}*2`) }));
    expect(await patchedSheet(shared, same)).toBe(shared);
  });

  test("of two that use one number, only the cells of the replaced one change", async () => {
    const a4 = '<c r="A1"><f t="shared" ref="A1" si="0">B1</f></c>';
    const xml = rows(a4, '<c r="A2"><f t="shared" ref="A2:A3" si="0">C2</f></c>', dependant("A3"));
    expect(await patchedSheet(xml, [{ row: 0, column: 0, value: null, formula: null }])).toBe(
      xml.replace(a4, '<c r="A1"></c>'),
    );
  });
});
