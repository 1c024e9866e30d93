import { describe, expect, test } from "vitest";
import { abvModel, attenuationModel } from "../../../src/core/uncertainty/alcohol-uncertainty.js";
import { budgetOf, type Model } from "../../../src/core/uncertainty/uncertainty.js";
import { draws, uniform } from "../../support/random.js";
import { deviation, mean } from "../../support/reference.js";
import { beer, glass, prism } from "../../support/uncertain.js";

const uncertain: Readonly<Record<string, Model>> = {
  "hydrometer at 20 °C": glass(1.046, 20),
  "hydrometer at 27 °C": glass(1.046, 27),
  "hydrometer at 50 °C, °P": glass(1.046, 50, "P"),
  "refractometer in wort": prism(12.4),
  "refractometer in beer, original by gravity": prism(6.4, { gravity: 1.048 }),
  "refractometer in beer, original by the same": prism(6.4, { reading: 12.4 }),
  "alcohol by volume": abvModel(beer(1.048, 1.012), "BALLING"),
  "apparent attenuation": attenuationModel(beer(1.048, 1.012), "APPARENT"),
  "real attenuation": attenuationModel(beer(1.048, 1.012), "REAL"),
};

// JCGM 101:2008: the calculation itself, over and over, with each quantity drawn from its distribution. Seeded.
describe("10 000 draws agree with the first-order budget", () => {
  const N = 10_000;
  const seeds = Array.from({ length: 20 }, (_, i) => uniform(101 + i, N));

  for (const [what, model] of Object.entries(uncertain))
    test(what, () => {
      const names = Object.keys(model.of);
      const drawn = names.map((name, i) => {
        const [of, one = [], other = []] = [model.of[name], seeds[2 * i], seeds[2 * i + 1]];
        return of && of.standardUncertainty > 0 ? draws(of, one, other) : undefined;
      });
      const exact = Object.fromEntries(names.map((name) => [name, model.of[name]?.value ?? NaN]));
      const results = Array.from({ length: N }, (_, run) => {
        const values = { ...exact };
        names.forEach((name, i) => (values[name] = drawn[i]?.[run] ?? values[name] ?? NaN));
        return model.result(values);
      });
      const { value, standardUncertainty: standard, expandedUncertainty: expanded } = budgetOf(model);
      const found = deviation(results);
      const middle = mean(results);
      // Sampling error of a standard deviation, from the fourth moment of the draws; of a mean, s/√N. Four of either.
      const fourth = mean(results.map((result) => (result - middle) ** 4));
      const sampling = Math.sqrt((fourth - found ** 4) / N) / (2 * found);
      expect(sampling / found).toBeLessThan(0.01);
      expect(Math.abs(found - standard)).toBeLessThan(4 * sampling);
      expect(Math.abs(middle - value)).toBeLessThan((4 * found) / Math.sqrt(N));
      const covered = results.filter((result) => Math.abs(result - value) <= expanded).length / N;
      expect(covered).toBeGreaterThan(0.945); // "about 95 %", GUM 6.3.3
      expect(covered).toBeLessThan(0.985);
    });
});
