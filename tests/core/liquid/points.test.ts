import { expect, test } from "vitest";
import {
  gravityOfPoints,
  pointsOfExtract,
  pointsOfGravity,
  pointsPerPlato,
} from "../../../src/core/liquid/points.js";
import { figure, reference } from "../../support/reference.js";

test("1.048 is 48 points, and water none", () => {
  expect(pointsOfGravity(1.048)).toBeCloseTo(48, 9);
  expect(pointsOfGravity(1)).toBe(0);
  expect(gravityOfPoints(48)).toBeCloseTo(1.048, 12);
  expect(gravityOfPoints(-8)).toBeCloseTo(0.992, 12);
});

// NBS Circular C440, Table 114, printed to 0.01 points.
test("points of an extract, and how many make a degree, are those of the printed rows", () => {
  const table = new Map(
    reference("plato-sg-nbs114-apparent").map((row) => [
      figure(row, "brix"),
      1000 * (figure(row, "apparent_sg_20_20") - 1),
    ]),
  );
  const printed = (brix: number): number => table.get(brix) ?? NaN;
  for (const brix of [2, 10, 15, 20]) {
    expect(Math.abs(pointsOfExtract(brix) - printed(brix))).toBeLessThanOrEqual(0.0101);
    const perDegree = (printed(brix + 1) - printed(brix - 1)) / 2; // each to 0.005, so their difference to 0.01
    expect(Math.abs(pointsPerPlato(printed(brix)) - perDegree)).toBeLessThan(0.011);
  }
});
