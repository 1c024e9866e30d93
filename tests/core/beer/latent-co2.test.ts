import { describe, expect, test } from "vitest";
import { beerByExtracts } from "../../../src/core/beer/beer.js";
import { extractOfGravity as P } from "../../../src/core/liquid/gravity.js";
import { CO2_PER_ALCOHOL, co2In, GRAMS_PER_VOLUME, latentCo2 } from "../../../src/core/beer/latent-co2.js";
import { EXTRACT_PER_ALCOHOL, LOST_PER_ALCOHOL } from "../../../src/core/liquid/mixture.js";
import { figure, reference, worst } from "../../support/reference.js";
import { reasonOf } from "../../support/refused.js";

const YEAST_PER_ALCOHOL = 0.11; // g, the rest of Balling's split as printed

test("Balling's split adds up: alcohol, carbon dioxide and yeast are the extract", () => {
  expect(1 + CO2_PER_ALCOHOL + YEAST_PER_ALCOHOL).toBeCloseTo(EXTRACT_PER_ALCOHOL, 12);
  expect(CO2_PER_ALCOHOL + YEAST_PER_ALCOHOL).toBeCloseTo(LOST_PER_ALCOHOL, 12);
});

// Gay-Lussac's equation, C6H12O6 → 2 C2H5OH + 2 CO2: 44.009/46.069 = 0.9553 g for each gram of ethanol, from the standard
// atomic weights (IUPAC/CIAAW abridged 2021: C 12.011, H 1.008, O 15.999). Balling measured 0.9565.
test("Balling's carbon dioxide is that of the equation of fermentation within 0.2 %", () => {
  const [c, h, o] = [12.011, 1.008, 15.999];
  expect(Math.abs(CO2_PER_ALCOHOL / ((c + 2 * o) / (2 * c + 6 * h + o)) - 1)).toBeLessThan(0.002);
});

// Molar mass from the same atomic weights; molar volume of an ideal gas at 273.15 K and 101.325 kPa, CODATA 2018:
// 22.413 969 54 L/mol. 1.96 is printed to two decimals.
test("one volume is 1.96 g/L: the molar mass over the molar volume at 0 °C and 1 atm", () => {
  expect(Math.abs((12.011 + 2 * 15.999) / 22.41396954 - GRAMS_PER_VOLUME)).toBeLessThanOrEqual(0.005);
  expect(co2In("VOL", 1.96)).toBeCloseTo(1, 12);
  expect(co2In("G/L", 1.96)).toBe(1.96);
});

// Composition by other code, in % by mass of the finished beer. All its alcohol came of wort that weighed more by what
// left it, so a litre of wort of density 998.2·OG makes so much carbon dioxide.
test("a whole fermentation makes what the alcohol of the computed comparison asks for, within 0.05 g/L", () => {
  const rows = reference("alcohol-beer-method-comparison");
  expect(rows.length).toBe(4);
  const off = (row: (typeof rows)[number]): number => {
    const [og, fg, abw] = [figure(row, "OG"), figure(row, "FG"), figure(row, "ABW")];
    const alcohol = (998.2 * og * abw) / (100 + LOST_PER_ALCOHOL * abw);
    return latentCo2(P(og), P(fg), P(og)) - CO2_PER_ALCOHOL * alcohol;
  };
  expect(worst(rows, off).by).toBeLessThan(0.05);
});

test("what is left after a part and what that part made are the whole, per mass of wort", () => {
  const original = P(1.06);
  const wortInLitre = (apparent: number): number => {
    const { gravity, abw } = beerByExtracts(original, apparent);
    return gravity * (1 + (LOST_PER_ALCOHOL * abw) / 100);
  };
  const [whole, first, rest] = [
    latentCo2(original, P(1.012), original) / wortInLitre(original),
    latentCo2(original, P(1.03), original) / wortInLitre(original),
    latentCo2(P(1.03), P(1.012), original) / wortInLitre(P(1.03)),
  ];
  expect(first + rest).toBeCloseTo(whole, 2);
});

describe("without the original gravity", () => {
  const originals = [5, 7.5, 10, 12, 15, 20, 25, 30];
  const pairs = [-1, 0, 1, 2, 3, 5, 8, 12, 18].flatMap((now) =>
    [0.1, 0.5, 1, 2, 4, 8].map((lost) => [now, now - lost] as const),
  );
  /** Known over unknown, less 1, for each beer that can be. */
  const shares = originals.flatMap((original) =>
    pairs.flatMap(([now, end]) => {
      if (now > original || end < Math.max(-4, -0.19 * original)) return []; // no such beer
      return [latentCo2(now, end) / latentCo2(now, end, original) - 1];
    }),
  );

  test("the answer is never too low, and at most 6.5 % too high from 5 °P on", () => {
    expect(shares.length).toBeGreaterThan(200);
    expect(Math.min(...shares)).toBeGreaterThan(-1e-6);
    expect(Math.max(...shares)).toBeLessThan(0.065);
  });
});

test("nothing is left at the expected final gravity", () => {
  expect(latentCo2(2.5, 2.5)).toBeCloseTo(0, 9);
  expect(latentCo2(2.5, 2.5, 12)).toBeCloseTo(0, 9);
});

test("a beer past what was expected is refused, as nobody knows where it will end", () => {
  expect(reasonOf(() => latentCo2(P(1.008), P(1.01)))).toMatchObject({ kind: "below-expected" });
});

test("so are a gravity above the original one, and what no source covers", () => {
  expect(reasonOf(() => latentCo2(13, 3, 12))).toMatchObject({ kind: "final-above-original" });
  for (const [now, end, original] of [
    [30.01, 3, undefined],
    [3, -4.01, undefined],
    [3, 2, 30.01],
    [NaN, 2, 12],
    [3, NaN, 12],
  ] as const)
    expect(reasonOf(() => latentCo2(now, end, original)).kind).toBe("out-of-range");
  expect(latentCo2(30, -4)).toBeGreaterThan(0);
});
