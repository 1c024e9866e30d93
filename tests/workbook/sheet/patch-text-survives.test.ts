import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { CellValue } from "../../../src/workbook/model.js";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { bookOf, main, type Book } from "../../support/build-workbook.js";
import { patchBook } from "../../support/patched.js";

const texts: Omit<Book, "sheets"> = {
  relations: [{ id: "t", kind: "sharedStrings", target: "sharedStrings.xml" }],
  parts: { "xl/sharedStrings.xml": `<sst xmlns="${main}"><si><t>old</t></si></sst>` },
};

describe("any text or value comes back as it went in", () => {
  const odd = fc.constantFrom(
    "_",
    "x",
    "_x0041_",
    "_x0041",
    "_x000",
    "0041_",
    "\r",
    "\n",
    "\t",
    "\u0000",
    "\u001f",
    "\ufffe",
    "\uffff",
    "\ud83c",
    "\udf7a",
    "\u{1F37A}",
    "&",
    "<",
    ">",
    "]]>",
    '"',
    " ",
    "\u00a0",
    "A",
    "\u0085",
    "\u2028",
    "\ufeff",
  );
  const text = fc.oneof(
    fc.string({ unit: "binary" }),
    fc.array(odd, { maxLength: 12 }).map((parts) => parts.join("")),
  );
  const value: fc.Arbitrary<CellValue> = fc.oneof(
    text,
    fc.double({ noNaN: true, noDefaultInfinity: true }).map((n) => n + 0),
    fc.boolean(),
    fc
      .constantFrom("#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A")
      .map((error) => ({ error })),
    fc.constant(null),
  );
  const rows =
    '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1"><f>A1</f><v>0</v></c><c r="C1" s="1"/></row>';

  test("over a text, beside a formula, over a blank and in a new cell", async () => {
    const book = await openWorkbook(bookOf(rows, texts));
    await fc.assert(
      fc.asyncProperty(fc.array(value, { minLength: 4, maxLength: 4 }), async (values) => {
        const patched = await book.patch(
          values.map((v, column) => ({ sheet: "S", row: 0, column, value: v })),
        );
        const cells = (await openWorkbook(patched)).model.sheets[0]?.cells ?? [];
        const back = values.map((_, column) => cells.find((cell) => cell.column === column)?.value ?? null);
        expect(back).toEqual(values.map((v) => (Object.is(v, -0) ? 0 : v)));
      }),
      { numRuns: 250 },
    );
  });

  test("even one that becomes an escape only by what is escaped behind it", async () => {
    for (const value of ["_x0041\u0001", "_x0041\r", "_x0041\ud83c", "_x005F_x0041_", "__x0041__"]) {
      const patched = await patchBook(bookOf(""), [{ sheet: "S", row: 0, column: 0, value }]);
      expect((await openWorkbook(patched)).model.sheets[0]?.cells[0]?.value).toBe(value);
    }
  });

  test("in a formula", async () => {
    const book = await openWorkbook(bookOf(""));
    await fc.assert(
      fc.asyncProperty(
        text.filter((s) => s !== ""),
        async (s) => {
          const change = {
            sheet: "S",
            row: 0,
            column: 0,
            value: 1,
            formula: { text: s, kind: "plain" } as const,
          };
          expect(
            (await openWorkbook(await book.patch([change]))).model.sheets[0]?.cells[0]?.formula?.text,
          ).toBe(s);
        },
      ),
    );
  });
});
