import { describe, expect, test } from "vitest";
import {
  crossesPath,
  linePath,
  multiples,
  ringsPath,
  roundTicks,
  linearScale,
  extent,
  padded,
} from "../../../src/pane/parts/chart-geometry.js";

describe("round ticks", () => {
  test.each([
    [[1.008, 1.052], 6, ["1.010", "1.020", "1.030", "1.040", "1.050"]],
    [[1.0097, 1.0123], 6, ["1.0100", "1.0105", "1.0110", "1.0115", "1.0120"]],
    [[17, 23], 4, ["18", "20", "22"]],
    [[-1.5, 1.5], 6, ["-1.5", "-1.0", "-0.5", "0.0", "0.5", "1.0", "1.5"]],
  ] as const)("within %j, at most %i intervals", (span, most, wanted) => {
    const decimals = wanted[0].split(".")[1]?.length ?? 0;
    expect(roundTicks(span, most).map((value) => value.toFixed(decimals))).toEqual(wanted);
  });

  test("never more than asked for, whatever the span", () => {
    for (let i = 0; i < 2000; i++) {
      const low = Math.sin(i) * 10 ** (i % 7);
      const high = low + (1 + Math.cos(i)) * 10 ** ((i % 9) - 4) + 1e-6;
      const ticks = roundTicks([low, high], 5);
      expect(ticks.length).toBeLessThanOrEqual(6);
      expect(
        ticks.every((tick) => tick >= low - 1e-9 * Math.abs(low) && tick <= high + 1e-9 * Math.abs(high)),
      ).toBe(true);
    }
  });
});

test("multiples of a step include both ends", () => {
  expect(multiples([2, 8], 2)).toEqual([2, 4, 6, 8]);
  expect(multiples([2.1, 2.9], 1)).toEqual([]);
});

test("a span has room around its values, and some of its own for a single one", () => {
  expect(padded([10, 20], 0.1, 2)).toEqual([9, 21]);
  expect(padded(extent([5, 5]), 0.1, 2)).toEqual([4, 6]);
  expect(extent(Array.from({ length: 300_000 }, (_, i) => i))).toEqual([0, 299_999]);
});

test("values are drawn in proportion between the edges", () => {
  const up = linearScale([1, 1.1], 200, 0);
  expect([up(1), up(1.05), up(1.1)]).toEqual([200, 100, 0]);
});

test("rings at one place are drawn once, and a line goes through all places", () => {
  const place = { x: 10, y: 20 };
  expect(ringsPath([place, { ...place }], 3)).toBe("M7 20a3 3 0 1 0 6 0a3 3 0 1 0 -6 0");
  expect(linePath([place, { x: 12, y: 5 }])).toBe("M10 20L12 5");
  expect(crossesPath([place], 2)).toBe("M8 18L12 22M8 22L12 18");
});
