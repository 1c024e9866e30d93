import fc from "fast-check";
import { expect, test } from "vitest";
import { cooledVolume } from "../../../src/core/brewhouse/cooling.js";
import { extractMass } from "../../../src/core/brewhouse/extract-mass.js";
import { extractOfGravity, gravityOfExtract } from "../../../src/core/liquid/gravity.js";
import { efficiency, extractShare, gristExtract } from "../../../src/core/brewhouse/grist.js";
import {
  blendedExtract,
  boiledExtract,
  boiledVolume,
  dilutionWater,
  fortifyingMass,
} from "../../../src/core/brewhouse/kettle.js";
import { Refusal } from "../../../src/core/refusal.js";
import { kilogramsPer, litresPer } from "../../../src/core/brewhouse/units.js";
import { waterDensity } from "../../../src/core/liquid/water-density.js";
import { volumeRatio } from "../../../src/core/liquid/wort-density.js";
import { reasonOf } from "../../support/refused.js";
import { told } from "../../support/told.js";
import { figure, reference, worst } from "../../support/reference.js";

const P = (sg: number): number => extractOfGravity(sg);
const litres = fc.double({ min: 1, max: 5000, noNaN: true });
const wort = fc.double({ min: 2, max: 18, noNaN: true });

test("extract per litre is that of a printed table within 0.15 g, 1.001 to 1.079", () => {
  const rows = reference("plato-sg-extract-gl-gost").filter((row) => figure(row, "d20_20") > 1);
  const off = (row: (typeof rows)[number]): number =>
    1000 * extractMass(1, P(figure(row, "d20_20"))) - figure(row, "extract_g_per_L");
  expect(worst(rows, off).by).toBeLessThan(0.15);
});

// 1 lb of sucrose in a US gallon of solution: 46.2 points by the printed tables, 119.8 g/L.
test("pure sugar is 100 %, about 46.2 points·gal/lb and about 385 litre-degrees per kilogram", () => {
  expect(extractShare(100, "PCT")).toBe(1);
  expect(extractShare(46.2, "PPG")).toBeCloseTo(1, 2);
  expect(extractShare(385, "LDK")).toBeCloseTo(1, 2);
});

test("yields are taken to their limits and refused past them", () => {
  for (const [value, unit] of [
    [0, "PCT"],
    [100, "PCT"],
    [390, "LDK"],
    [47, "PPG"],
  ] as const)
    expect(extractShare(value, unit)).toBeGreaterThanOrEqual(0);
  for (const [value, unit] of [
    [-1, "PCT"],
    [100.1, "PCT"],
    [391, "LDK"],
    [47.1, "PPG"],
    [NaN, "PPG"],
  ] as const)
    expect(() => extractShare(value, unit)).toThrow(Refusal);
});

test("a grist is the sum of its lines", () => {
  const grist = [
    { kilograms: 4, share: 0.8 },
    { kilograms: 0.5, share: 0.7 },
  ];
  expect(gristExtract(grist)).toBeCloseTo(3.55, 12);
  expect(() => gristExtract([{ kilograms: -1, share: 0.8 }])).toThrow(Refusal);
});

test("efficiency is a share, and more than scatter above 100 % is refused", () => {
  expect(efficiency(3, 4)).toBe(75);
  expect(efficiency(4.1, 4)).toBeCloseTo(102.5, 9);
  for (const [found, possible] of [
    [5, 4],
    [1, 0],
    [NaN, 1],
  ] as const)
    expect(() => efficiency(found, possible)).toThrow(Refusal);
});

test("boiling down keeps the extract, and the two boil functions are inverse", () => {
  fc.assert(
    fc.property(litres, wort, fc.double({ min: 0.7, max: 0.999, noNaN: true }), (volume, p, share) => {
      const strong = boiledExtract(volume, p, volume * share);
      expect(extractMass(volume * share, strong)).toBeCloseTo(extractMass(volume, p), 6);
      expect(boiledVolume(volume, p, strong)).toBeCloseTo(volume * share, 5);
    }),
  );
});

test("a boil cannot add volume, thin wort, or go past 30 °P", () => {
  expect(() => boiledExtract(20, 10, 21)).toThrow(Refusal);
  expect(() => boiledVolume(20, 10, 9)).toThrow(Refusal);
  expect(() => boiledExtract(20, 12, 5)).toThrow(Refusal);
  expect(boiledExtract(20, 10, 20)).toBeCloseTo(10, 6);
});

test("diluting conserves extract and mass", () => {
  fc.assert(
    fc.property(litres, wort, fc.double({ min: 0.3, max: 1, noNaN: true }), (volume, p, share) => {
      const water = dilutionWater(volume, p, p * share);
      const blended = blendedExtract([
        { litres: volume, extract: p },
        { litres: water, extract: 0 },
      ]);
      expect(blended).toBeCloseTo(p * share, 8);
    }),
  );
  expect(() => dilutionWater(20, 10, 11)).toThrow(Refusal);
  expect(() => dilutionWater(20, 10, 0)).toThrow(Refusal);
  expect(() => dilutionWater(20, 10, Number.MIN_VALUE)).toThrow(Refusal);
});

test("fortifying reaches the target by mass balance", () => {
  fc.assert(
    fc.property(litres, wort, fc.double({ min: 0.5, max: 1, noNaN: true }), (volume, p, share) => {
      const added = fortifyingMass(volume, p, p + 3, share);
      const mass = extractMass(volume, p) / (p / 100);
      expect((100 * (extractMass(volume, p) + added * share)) / (mass + added)).toBeCloseTo(p + 3, 8);
    }),
  );
  expect(() => fortifyingMass(20, 10, 9, 1)).toThrow(Refusal);
  expect(() => fortifyingMass(20, 10, 12, 0.1)).toThrow(Refusal);
});

test("a blend lies between its parts and does not depend on their order", () => {
  fc.assert(
    fc.property(litres, litres, wort, wort, (a, b, p, q) => {
      const one = { litres: a, extract: p };
      const other = { litres: b, extract: q };
      const both = blendedExtract([one, other]);
      expect(both).toBeGreaterThanOrEqual(Math.min(p, q) - 1e-9);
      expect(both).toBeLessThanOrEqual(Math.max(p, q) + 1e-9);
      expect(blendedExtract([other, one])).toBeCloseTo(both, 10);
    }),
  );
});

test("cooling contracts wort as water contracts, within 0.2 % for ordinary strengths", () => {
  for (const t of [40, 70, 100]) {
    expect(cooledVolume(100, t, 20)).toBeCloseTo((100 * waterDensity(t)) / waterDensity(20), 0.5);
    for (const p of [0, 6, 20])
      expect(Math.abs(cooledVolume(1, t, 20) - volumeRatio(p, t, 20))).toBeLessThan(0.002);
  }
  expect(cooledVolume(25, 20, 20)).toBe(25);
  for (const t of [-0.1, 100.1, NaN]) expect(() => cooledVolume(20, t, 20)).toThrow(Refusal);
});

test("units are what their definitions say", () => {
  expect(litresPer.gal).toBeCloseTo((231 * 2.54 ** 3) / 1000, 12); // 231 cubic inches
  expect(litresPer.uk_gal).toBe(4.54609);
  expect(litresPer.qt * 4).toBeCloseTo(litresPer.gal, 12);
  expect(litresPer.uk_pt * 8).toBeCloseTo(litresPer.uk_gal, 12);
  expect(kilogramsPer.lbm).toBe(0.45359237);
  expect(kilogramsPer.ozm * 16).toBe(kilogramsPer.lbm);
});

test("more than all of a grist's extract is told up to 105 %, and refused beyond", () => {
  const at = (percent: number) => told((to) => efficiency(percent, 100, to));
  expect(at(100).warnings).toEqual([]);
  expect(at(101).warnings).toEqual([{ kind: "more-than-all", percent: 101 }]);
  expect(at(105).warnings.length).toBe(1);
  expect(reasonOf(() => efficiency(106, 100))).toEqual({
    kind: "more-than-grist",
    efficiency: 106,
    most: 105,
  });
});

test("a kettle that cannot do what is asked says why", () => {
  const [of10, of12] = [gravityOfExtract(10), gravityOfExtract(12)];
  expect(reasonOf(() => boiledExtract(20, 10, 21))).toEqual({ kind: "volume-grows", volume: 20, end: 21 });
  expect(reasonOf(() => dilutionWater(20, 10, 12))).toEqual({
    kind: "target-not-below",
    gravity: of10,
    target: of12,
  });
  expect(reasonOf(() => boiledVolume(20, 12, 10))).toEqual({
    kind: "target-not-above",
    gravity: of12,
    target: of10,
  });
  expect(reasonOf(() => fortifyingMass(20, 10, 12, 0.12))).toEqual({
    kind: "addition-too-weak",
    addition: 12,
    target: 12,
  });
});

test("a target that is there already takes nothing", () => {
  expect(dilutionWater(20, 10, 10)).toBeCloseTo(0, 12);
  expect(boiledVolume(20, 10, 10)).toBeCloseTo(20, 12);
  expect(fortifyingMass(20, 10, 10, 0.8)).toBe(0);
});

test("water can be neither the target of a boil nor of an addition, even from water", () => {
  const water = gravityOfExtract(0);
  const refused = { kind: "target-not-above", gravity: water, target: water };
  expect(reasonOf(() => boiledVolume(20, 0, 0))).toEqual(refused);
  expect(reasonOf(() => fortifyingMass(20, 0, 0, 0.8))).toEqual(refused);
});
