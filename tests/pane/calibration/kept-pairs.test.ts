import { expect, test } from "vitest";
import { checkPoint } from "../../../src/core/instrument/check-reading.js";
import { extractFrom } from "../../../src/core/liquid/scales.js";
import { hydrometerOf } from "../../../src/instruments/as-core.js";
import { findInstrument } from "../../../src/instruments/find.js";
import type { Profile } from "../../../src/instruments/schema.js";
import { keptPairs } from "../../../src/pane/calibration/kept-pairs.js";
import { instruments } from "../../support/instruments.js";

function named(name: string): Profile {
  const profile = findInstrument(instruments, name);
  if (!profile) throw new Error(`The fixture lost its ${name}.`);
  return profile;
}

test("a check in water on a 60 °F scale is water at 60 °F again", () => {
  expect(keptPairs(named("Old sixty"), "SG")).toEqual([
    { reading: "0.999", temperature: "60", strength: "1" },
  ]);
  expect(keptPairs(named("Old sixty"), "P")).toEqual([
    { reading: "0.999", temperature: "60", strength: "0" },
  ]);
});

test("check points that are typed again are the same ones", () => {
  const sixty = named("Old sixty");
  if (sixty.kind !== "hydrometer") throw new Error("Old sixty is no hydrometer.");
  const own = hydrometerOf(sixty);
  const checks = [1.0042, 1.0511].map((mark) => ({ reading: mark - 0.001, true: mark }));
  for (const scale of ["SG", "P"] as const)
    keptPairs({ ...sixty, checks }, scale).forEach(({ strength }, i) => {
      const again = checkPoint(1, own.calibrationC, extractFrom(Number(strength), scale), own).true;
      // Half of the last digit that is typed: 0.00001 SG, 0.001 °P.
      expect(Math.abs(again - (checks[i]?.true ?? NaN))).toBeLessThan(5.5e-6);
    });
});

test("a floating hydrometer's pairs are its readings and truths; a refractometer keeps none", () => {
  expect(keptPairs(named("Bobber"), "SG")).toEqual([
    { reading: "1.01", strength: "1.012" },
    { reading: "1.05", strength: "1.05" },
  ]);
  expect(keptPairs(named("Pocket prism"), "SG")).toEqual([]);
});
