// Where functions of two variables answer, found by asking; the regions here are known by algebra.
import { describe, expect, test } from "vitest";
import { domainOf } from "../../../src/handover/fit/domain.js";
import type { Interval } from "../../../src/handover/fit/interval.js";

const X: Interval = { min: -1, max: 3 };
const Y: Interval = { min: -2, max: 2 };

interface Region {
  readonly from: (x: number) => number;
  readonly to: (x: number) => number;
  readonly x: Interval;
}

const regions: Readonly<Record<string, Region>> = {
  "a box": { from: () => -1, to: () => 0.5, x: { min: 0.1, max: 2.2 } },
  "a box up to the limits": { from: () => -2, to: () => 2, x: X },
  "a wedge with its tip on the left": { from: () => -0.3, to: (x) => x - 0.5, x: { min: 0.2, max: 3 } },
  "curved edges that meet at both ends": {
    from: (x) => (x - 1) ** 2 - 1,
    to: (x) => 1 - (x - 1) ** 2,
    x: { min: 0, max: 2 },
  },
  "an edge with a corner": { from: (x) => Math.max(-1.5, x - 2), to: () => 1.25, x: { min: -1, max: 3 } },
  "an edge that dips in the middle": { from: () => -1, to: (x) => (x - 1) ** 2 / 4, x: { min: 0, max: 2.5 } },
};

describe.each(Object.entries(regions))("%s", (_, { from, to, x }) => {
  const answersAt = (at: number) => (places: readonly number[]) =>
    places.map((y) => at >= x.min && at <= x.max && y >= from(at) && y <= to(at));
  const domain = domainOf(answersAt, X, Y);

  test("goes from the first x with an answer to the last", () => {
    expect(domain?.x.min).toBeCloseTo(x.min, 4);
    expect(domain?.x.max).toBeCloseTo(x.max, 4);
    expect(domain?.x.min).toBeGreaterThanOrEqual(x.min);
    expect(domain?.x.max).toBeLessThanOrEqual(x.max);
  });

  test("has its edges where they are, and never outside", () => {
    const { min, max } = domain?.x ?? { min: NaN, max: NaN };
    const shares = [1e-3, ...Array.from({ length: 199 }, (_, i) => (i + 1) / 200), 1 - 1e-3];
    for (const share of shares) {
      const at = min + (max - min) * share;
      const span = domain?.spanAt(at);
      expect(span?.min).toBeCloseTo(Math.max(Y.min, from(at)), 6);
      expect(span?.max).toBeCloseTo(Math.min(Y.max, to(at)), 6);
      expect(span?.min).toBeGreaterThanOrEqual(from(at));
      expect(span?.max).toBeLessThanOrEqual(to(at));
    }
  });
});

test("a function that never answers has no domain", () => {
  expect(domainOf(() => (places) => places.map(() => false), X, Y)).toBeUndefined();
});
