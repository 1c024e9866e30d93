// What other programs put on the clipboard as text: cells apart by tabs, and in quotes where they hold line breaks.
import { expect, test } from "vitest";
import { lineTexts } from "../../../src/desk/typing/pasted-texts.js";

test.each([
  ["1.050", [["1.050"]]],
  ["a\tb\nc\td\n", [["a", "b"], ["c", "d"]]],
  ["a\r\n\r\nb\r\n", [["a"], [""], ["b"]]],
  ["\ta\t", [["", "a", ""]]],
  ['"two\nlines"\t"a ""b""\nc"\nd', [["two\nlines", 'a "b"\nc'], ["d"]]],
  ['=IF(A1<1.50,"yes","no")', [['=IF(A1<1.50,"yes","no")']]],
  ['"SG"\t"', [['"SG"', '"']]],
  ["", [[""]]],
])("%j", (text, expected) => {
  expect(lineTexts(text)).toEqual(expected);
}); // prettier-ignore
