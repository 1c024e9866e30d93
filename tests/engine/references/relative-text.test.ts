import { describe, expect, test } from "vitest";
import { Book } from "../../../src/engine/references/book.js";
import { relativeText } from "../../../src/engine/references/relative-text.js";
import { placed, Templates } from "../../../src/engine/references/templates.js";
import { calculated } from "../../../src/engine/univer/calculated-functions.js";
import { formulaCopy } from "../../../src/workbook/sheet/formula-copy.js";
import { randomFormulas } from "../../native/random-book.js";
import { fakeFunctions } from "../fixture.js";
import { workbook } from "../workbooks.js";

const from = { sheet: 0, row: 10, column: 5 };
const to = { sheet: 0, row: 34, column: 8 };
const model = workbook(
  { Formulas: {}, Data: {}, "My data": {} },
  {
    names: [
      { name: "Doubled", refersTo: "LAMBDA(x,2*x)" },
      { name: "Here", refersTo: "A1" },
    ],
  },
);
const book = new Book(model);

const copied = (text: string): string => formulaCopy(text, from.row, from.column)(to.row, to.column);

describe("copies have the same text", () => {
  test.each([
    "A1",
    "$A$1+B$2*$C3",
    "SUM(A1:B9)",
    "SUM('My data'!A1:B9,Data!$A:$C,Data!$1:$3)",
    'IF(A1="A1 ""B2""",1.5E-3,TRUE)',
    "_xldudf_GYLE_ABV(E11,F11)",
    "LOG10(A1)+ATAN2(B2,C3)",
    "-A1%^2",
    "A1<>B1",
    "{1,2;3,4}+A1",
  ])("%s", (text) => {
    expect(relativeText(text, from)).toBeDefined();
    expect(relativeText(copied(text), to)).toBe(relativeText(text, from));
  });
});

test.each([
  ["A1", "A2"],
  ["A1", "$A1"],
  ["A1", "A$1"],
  ['"A1"', "A1"],
  ["Data!A1", "'My data'!A1"],
  ["A1+1", "A1+2"],
  ["'A1'!B1", "'A2'!B1"],
])("%s and %s have not", (one, other) => {
  expect(relativeText(one, from)).not.toBe(relativeText(other, from));
});

test.each([
  "Here",
  "T[a]",
  "T[[#This Row],[a]]",
  "@A1:A9",
  "A1#",
  "#REF!",
  "A:A",
  "1:3",
  "Jan1:Mar1!B2",
  "Jan:Mar!B2",
  "[1]Sheet1!A1",
  "LET(x,A1,x)",
  "XFE1",
  "A1048577",
  "A0",
  "1A",
])("%s needs a closer look", (text) => {
  expect(relativeText(text, from)).toBeUndefined();
});

/** What a formula is in a cell, read by itself or after others. */
function seen(templates: Templates, text: string, at: typeof from): unknown {
  const template = templates.of({ text, kind: "plain" }, at);
  const { translation, base, localeDependence: speech, ...rest } = template;
  return {
    ...rest,
    speech,
    reads: template.reads.map((read) => placed(read, at)),
    tokens: translation.tokens,
    references: translation.references.map((reference) => ({
      ...reference,
      top: reference.top + (reference.topFixed ? 0 : at.row - base.row),
      bottom: reference.bottom + (reference.bottomFixed ? 0 : at.row - base.row),
      left: reference.left + (reference.leftFixed ? 0 : at.column - base.column),
      right: reference.right + (reference.rightFixed ? 0 : at.column - base.column),
    })),
  };
}

const special = [
  "_xlfn.SINGLE(A1:A40)",
  "ABS($F$1:$F$40)",
  "Doubled(A1)",
  "SUM(A11:C11)",
  "INDEX($A$1:$J$90,3,2)",
  'INDIRECT("A"&ROW(B11))',
  "IF(A11:A12>0,1,2)",
];

test("a copy that is told by its text is what it is when it is read by itself", () => {
  const formulas = [...special, ...randomFormulas(7, 600)];
  for (const text of formulas) {
    const together = new Templates(book, fakeFunctions(), calculated);
    seen(together, text, from);
    const copy = copied(text);
    expect(seen(together, copy, to), text).toEqual(
      seen(new Templates(book, fakeFunctions(), calculated), copy, to),
    );
  }
});
