import { expect, test } from "vitest";
import { lastOf, valueAt } from "../../../src/core/numeric/value-at.js";

test("a place that is not there is a fault, and never a quiet NaN", () => {
  expect([valueAt([7, 8, 9], 0), valueAt([7, 8, 9], 2), lastOf([7, 8, 9])]).toEqual([7, 9, 9]);
  for (const place of [-1, 3, 0.5, NaN]) expect(() => valueAt([7, 8, 9], place)).toThrow(RangeError);
  expect(() => lastOf([])).toThrow(RangeError);
});
