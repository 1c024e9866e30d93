import { expect, test } from "vitest";
import type { CheckPoint } from "../../../src/core/instrument/check-point.js";
import { floatingCalibration } from "../../../src/core/instrument/floating-calibration.js";
import { plainRefractometer } from "../../../src/core/instrument/refractometer.js";
import { waterReadingOf, wortFactorOf } from "../../../src/core/instrument/refractometer-calibration.js";
import { slippedScale } from "../../../src/core/instrument/scale-calibration.js";
import { sentence } from "../../../src/functions/contract/messages.js";
import { reasonOf } from "../../support/refused.js";

const graduated = { scale: "SG", meniscusAllowance: 0, lowest: 1, highest: 1.07 } as const;
const shift = (...points: CheckPoint[]) => sentence(reasonOf(() => slippedScale(points, graduated)));
const good: CheckPoint = { reading: 1.01, true: 1.011 };

test("a refused pair is named by its number, with what was given, what is allowed and the likely cause", () => {
  expect(shift(good, { reading: 1.08, true: 1.081 })).toBe(
    "Pair 2: The hydrometer reading is 1.08; allowed are 1 to 1.07 as SG.",
  );
  expect(shift({ reading: 1.046, true: 1.064 })).toBe(
    "Pair 1: The reading is 1.046 where 1.064 is true. A scale that is more than 0.015 off cannot be relied on; is one of the two, or the temperature, mistyped?",
  );
  expect(
    sentence(reasonOf(() => waterReadingOf([{ reading: 0.1 }, { reading: 3 }], plainRefractometer))),
  ).toBe("Pair 2: The reading on water is 3 °Bx; allowed are -2 to 2 °Bx.");
  expect(sentence(reasonOf(() => wortFactorOf([{ reading: 12, extract: 1.05 }], plainRefractometer)))).toBe(
    "Pair 1: The extract of the wort is 1.05 °P; allowed are 2 to 30 °P.",
  );
});

test("so are two that contradict each other, too few, and a line through one reading", () => {
  expect(shift(good, { reading: 1.04, true: 1.041 }, { reading: 1.04, true: 1.045 })).toBe(
    "Pairs 2 and 3 contradict each other: 1.04 for 1.041, and 1.04 for 1.045. Read both once more, or leave one out.",
  );
  expect(shift()).toBe("There are 0 pairs; at least 1 must be there.");
  const line = () => floatingCalibration({ scale: "SG", pairs: [good, { ...good, true: 1.012 }] });
  expect(sentence(reasonOf(line))).toBe(
    "All pairs have the same reading, 1.01; a line needs two that differ.",
  );
});
