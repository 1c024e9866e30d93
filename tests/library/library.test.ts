import { expect, expectTypeOf, test } from "vitest";
import type { Method } from "../../src/core/beer/alcohol-methods.js";
import type { YieldUnit } from "../../src/core/brewhouse/grist.js";
import type { Scale } from "../../src/core/liquid/scales.js";
import {
  abvFromGravities,
  abvFromRefractometer,
  abwFromGravities,
  apparentAttenuationPercent,
  convertGravity,
  efficiencyPercent,
  finalSgFromAttenuation,
  maltExtractKg,
  originalSgFromBoth,
  platoFromRefractometer,
  platoFromSg,
  realAttenuationPercent,
  realExtractPlato,
  sgFromHydrometer,
  sgFromPlato,
  sgFromRefractometer,
  wortExtractKg,
  type AlcoholMethod,
  type GravityUnit,
  type MaltYieldUnit,
} from "../../src/library/index.js";
import { deviation, figure, mean, reference, worst } from "../support/reference.js";

test("its words are those of the core", () => {
  expectTypeOf<GravityUnit>().toEqualTypeOf<Scale>();
  expectTypeOf<AlcoholMethod>().toEqualTypeOf<Method>();
  expectTypeOf<MaltYieldUnit>().toEqualTypeOf<YieldUnit>();
});

test("gravity and extract are those of NBS Circular C440, Table 114, 0 to 30 °P", () => {
  const rows = reference("plato-sg-nbs114-apparent");
  const off = (row: (typeof rows)[number]): number =>
    sgFromPlato(figure(row, "brix")) - figure(row, "apparent_sg_20_20");
  expect(worst(rows, off).by).toBeLessThan(1.1e-5);
  const back = (row: (typeof rows)[number]): number =>
    platoFromSg(figure(row, "apparent_sg_20_20")) - figure(row, "brix");
  expect(worst(rows, back).by).toBeLessThan(0.003);
  expect(convertGravity(1.05, "SG", "PTS")).toBeCloseTo(50, 9);
  expect(convertGravity(12, "BX", "SG")).toBe(sgFromPlato(12));
});

// The printed corrections are in °Bx to two decimals; README's accuracy says what they are missed by.
test("a 20 °C hydrometer is corrected as in the printed table, 10 to 25 °C", () => {
  const rows = reference("hydrometer-temp-brix20-transcribed").filter((row) => figure(row, "t_C") <= 25);
  const cells = rows.flatMap((row) =>
    Object.keys(row)
      .filter((column) => column.startsWith("bx"))
      .map((column) => ({ read: Number(column.slice(2)), tC: figure(row, "t_C"), add: figure(row, column) })),
  );
  expect(cells.length).toBeGreaterThan(200);
  const off = ({ read, tC, add }: (typeof cells)[number]): number =>
    platoFromSg(sgFromHydrometer(read, tC, { scale: "BX" })) - read - add;
  expect(worst(cells, off).by).toBeLessThan(0.02);
});

test("a hydrometer true at 60 °F compares with water of 60 °F, unless it says otherwise", () => {
  const sg60 = convertGravity(1.05, "SG60", "SG");
  expect(sgFromHydrometer(1.05, (60 - 32) / 1.8, { calibrationC: (60 - 32) / 1.8 })).toBeCloseTo(sg60, 6);
  const compared20 = sgFromHydrometer(1.05, 15.56, { calibrationC: 15.56, referenceC: 20 });
  expect(compared20).not.toBeCloseTo(sg60, 4);
  expect(sgFromHydrometer(1.049, 20, { meniscusAllowance: 0.001 })).toBeCloseTo(1.05, 9);
});

test("a refractometer without compensation is corrected by the international table of 1936", () => {
  const rows = reference("refractive-tempcorr-1936").filter((row) => figure(row, "brix_read") <= 30);
  const off = (row: (typeof rows)[number]): number => {
    const [brix, add] = [figure(row, "brix_read"), figure(row, "add")];
    return platoFromRefractometer(brix, { prismC: figure(row, "t_C"), wortFactor: 1 }) - brix - add;
  };
  const colder = rows.filter((row) => figure(row, "brix_read") + figure(row, "add") >= 0);
  expect(colder.length).toBeGreaterThan(100);
  expect(worst(colder, off).by).toBeLessThan(0.01);
  expect(platoFromRefractometer(12.5, { wortFactor: 1, waterBrix: 0.5 })).toBeCloseTo(12, 9);
});

// Tolman and Riley, USDA Bulletin 493, 1917: 34 beers distilled.
test("alcohol is that of distilled beers within what yields scatter", () => {
  const rows = reference("alcohol-beer-usda493-paired");
  const off = rows.map(
    (row) => abvFromGravities(figure(row, "wort_sg"), figure(row, "beer_sg")) - figure(row, "abv_meas"),
  );
  expect(rows).toHaveLength(34);
  expect(Math.abs(mean(off))).toBeLessThan(0.15);
  expect(deviation(off)).toBeLessThan(0.15);
});

test("what is said of one beer agrees with itself, by hydrometer and by refractometer", () => {
  const [og, fg] = [1.05, 1.01];
  const fermented = 2.0665 * abwFromGravities(og, fg); // Balling: g of extract for 1 g of alcohol
  const real = realExtractPlato(og, fg);
  expect(realAttenuationPercent(og, fg)).toBeCloseTo((100 * fermented) / (fermented + real), 9);
  const lost = platoFromSg(og) - platoFromSg(fg);
  expect(apparentAttenuationPercent(og, fg)).toBeCloseTo((100 * lost) / platoFromSg(og), 9);
  expect(finalSgFromAttenuation(og, apparentAttenuationPercent(og, fg))).toBeCloseTo(fg, 9);
  // Some reading belongs to this beer: the one with which its original gravity comes out again.
  const brix = 6;
  const sg = sgFromRefractometer(brix, og);
  expect(originalSgFromBoth(sg, brix)).toBeCloseTo(og, 6);
  expect(abvFromRefractometer(brix, og)).toBeCloseTo(abvFromGravities(og, sg), 6);
});

test("extract in a litre of wort is that of a printed table within 0.15 g, 1.001 to 1.079", () => {
  const rows = reference("plato-sg-extract-gl-gost").filter((row) => figure(row, "d20_20") > 1);
  const off = (row: (typeof rows)[number]): number =>
    1000 * wortExtractKg(1, figure(row, "d20_20")) - figure(row, "extract_g_per_L");
  expect(worst(rows, off).by).toBeLessThan(0.15);
});

// 1 lb of sucrose in a US gallon of solution: 46.2 points by the printed tables.
test("a grist gives what its maltster states, of which the wort holds a share", () => {
  expect(maltExtractKg(5, 80)).toBe(4);
  expect(maltExtractKg(0.45359237, 46.2, "PPG")).toBeCloseTo(0.4536, 2);
  expect(efficiencyPercent(3, 4)).toBe(75);
});

// A program without types may hand over anything.
const untyped = (value: unknown): never => value as never;

test.each([
  ["a text", () => sgFromHydrometer(untyped("1.046"), 27), TypeError, /reading must be a number.*"1\.046"/],
  ["nothing", () => sgFromPlato(untyped(undefined)), TypeError, /plato must be a number/],
  ["no number", () => platoFromSg(NaN), RangeError, /sg is not a number/],
  ["Fahrenheit", () => sgFromHydrometer(1.046, 81), RangeError, /sampleC is 81 °C.*27\.2 °C/],
  ["points for SG", () => abvFromGravities(1046, 1.01), RangeError, /originalSg is 1046.*0\.98\d+ to 1\.129/],
  ["swapped gravities", () => abvFromGravities(1.01, 1.05), RangeError, /swapped/],
  ["a method", () => abvFromGravities(1.05, 1.01, untyped("BEST")), RangeError, /"BEST".*"RULE"/],
  ["a scale", () => convertGravity(12, "P", untyped("plato")), RangeError, /"plato".*"KGM3"/],
  ["an option", () => sgFromHydrometer(1.046, 27, untyped({ calibratedC: 15 })), TypeError, /calibratedC/],
  ["an option's place", () => sgFromHydrometer(1.046, 27, untyped(15)), TypeError, /must be an object/],
  ["an option's value", () => platoFromRefractometer(12, { wortFactor: 2 }), RangeError, /wortFactor is 2/],
  [
    "a calibration",
    () => sgFromHydrometer(1.046, 27, { calibrationC: 600 }),
    RangeError,
    /calibrationC is 600/,
  ],
  ["too much extract", () => efficiencyPercent(5, 4), RangeError, /125 %/],
  ["a unit", () => maltExtractKg(5, 80, untyped("%")), RangeError, /"%".*"PPG"/],
] as const)("%s that is wrong is refused in a sentence", (_, calculate, kind, sentence) => {
  expect(calculate).toThrow(kind);
  expect(calculate).toThrow(sentence);
});
