import { expect, test } from "vitest";
import { error, functionNamed, number } from "../../support/cells.js";
import { functionPage } from "../../../src/help/function-page.js";

test("CO2.LATENT gives grams in a litre, or volumes of 1.96 g/L", () => {
  const grams = number("CO2.LATENT", 1.014, 1.01);
  expect(number("CO2.LATENT", 1014, 1010, "g/l")).toBe(grams);
  expect(number("CO2.LATENT", 1.014, 1.01, "vol")).toBeCloseTo(grams / 1.96, 12);
});

test("the original gravity makes it a little less, and °P mean the same", () => {
  const known = number("CO2.LATENT", 1.014, 1.01, null, 1.048);
  const unknown = number("CO2.LATENT", 1.014, 1.01);
  expect(known).toBeLessThan(unknown);
  expect(known).toBeGreaterThan(unknown / 1.065);
  const [now, end, original] = [1.014, 1.01, 1.048].map((sg) => number("CONVERT", sg, "SG", "P"));
  expect(number("CO2.LATENT", now, end, "G/L", original, "P")).toBeCloseTo(known, 6);
});

test("a beer past the expected gravity gets no 0, which would read as an all-clear", () => {
  expect(error("CO2.LATENT", 1.009, 1.01)).toBe(
    "#VALUE! The gravity (1.009) is already below the expected final gravity (1.01), so how far it will go is not known. Check the reading, and expect a lower one.",
  );
});

test("its help carries the caution and calls nothing safe", () => {
  const { caution, ...words } = functionNamed("CO2.LATENT");
  expect(caution).toMatch(/pressure/);
  expect(caution).toMatch(/already dissolved comes on top/);
  expect(words.returns).toMatch(/dissolved comes on top/);
  expect(functionPage(functionNamed("CO2.LATENT"))).not.toMatch(/\bsafe/i);
});
