import { expect, test } from "vitest";
import { shownTick, timeTicks } from "../../../src/pane/cell/shown-time.js";

const may1 = 46_143; // 2026-05-01, days since 30 December 1899

test("an axis of dates has whole days, or whole hours where it is short", () => {
  expect(timeTicks([may1 + 0.4, may1 + 4.2], 5)).toEqual([1, 2, 3, 4].map((days) => may1 + days));
  expect(timeTicks([may1 + 0.4, may1 + 1.2], 5).map(shownTick)).toEqual([
    "12:00",
    "18:00",
    expect.any(String),
  ]);
  expect(timeTicks([may1, may1 + 33], 5).every((time) => time % 7 === 0)).toBe(true);
});

test("an axis of days counted from somewhere has round numbers", () => {
  expect(timeTicks([0, 9.5], 5).map(shownTick)).toEqual(["0", "2", "4", "6", "8"]);
  expect(timeTicks([0, 0.9], 5).map(shownTick)).toEqual(["0", "0.2", "0.4", "0.6", "0.8"]);
});
