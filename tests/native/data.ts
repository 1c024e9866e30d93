import type { CellValue } from "../../src/workbook/model.js";

const error = (code: string): CellValue => ({ error: code });

/**
 * The sheet "Data": rows from 2 on. A numbers, B texts, C truths and errors, D days, E results of ours, F a mixture, G blanks
 * between, H to J sorted numbers with what belongs to them.
 */
export const columns: Readonly<Record<string, readonly CellValue[]>> = {
  A: [1.048, 2, -3, 0, 12.5, 1.01, 100, 2],
  B: ["pale", "Stout", "a", "", "3", "pale", "ipa x", "1.5"],
  C: [true, false, error("#N/A"), true, error("#DIV/0!"), false, null, error("#VALUE!")],
  D: [45000, 45012.25, 45031, 45057.75, 45080.5, 45100, 45322, 45351],
  E: [4.69, error("#VALUE!"), 5.1, "", 4.2, error("#N/A"), 6.03, 0.5],
  F: [1, "x", null, true, error("#NUM!"), "7", "", 2.5],
  G: [null, 3, null, "b", null, null, false, null],
  H: [1, 2, 3, 5, 8, 13, 21, 34],
  I: ["one", "two", "three", "five", "eight", null, "much", "more"],
  J: [10, 20, 30, 50, 80, 130, 210, 340],
};

/** A formula that gives an error, for engines that do not take errors as values. */
export const errorFormula: Readonly<Record<string, string>> = {
  "#N/A": "NA()",
  "#DIV/0!": "1/0",
  "#VALUE!": '1+"a"',
  "#NUM!": "SQRT(-1)",
};
