import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { loadFunctions } from "../support/functions-bundle.js";
import { diceFrom } from "../fuzz/dice.js";
import { tried } from "../fuzz/foreign-contract.js";
import { plantings } from "../fuzz/foreign-plant.js";

const path = (file: string): string => fileURLToPath(new URL(`../../${file}`, import.meta.url));
const bundle = loadFunctions(path("dist"));
const seeds = [1, 2, 3];

// The same for any folder of workbooks: npm run fuzz -- --foreign DIR.
test.each(
  ["tests/workbooks/brew-log-existing.xlsx", "examples/season.xlsx"].flatMap((file) =>
    plantings.map((planting) => [file, planting] as const),
  ),
)(
  "in %s formulas of ours, planted %s, change no cell that they do not reach, and no number that they do not make another",
  async (file, planting) => {
    for (const seed of seeds)
      expect([seed, await tried(path(file), planting, diceFrom(seed), bundle)]).toEqual([
        seed,
        expect.objectContaining({ kind: "calculated", broken: [] }),
      ]);
  },
);
