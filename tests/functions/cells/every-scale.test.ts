// A gravity may be written as SG or as °P wherever there is one, and comes to the same.
import { beforeAll, describe, expect, test } from "vitest";
import { catalogue } from "../../../src/functions/catalogue.js";
import { CellError, type RawCells, type Result } from "../../../src/functions/contract/cell-value.js";
import { evaluate } from "../../../src/functions/evaluate.js";
import type { FunctionSpec } from "../../../src/functions/contract/function-spec.js";
import { useInstruments } from "../../../src/functions/contract/instruments-port.js";
import { number } from "../../support/cells.js";
import { instruments } from "../../support/instruments.js";
import { uniform } from "../../support/random.js";

beforeAll(() => {
  useInstruments(instruments);
});

const RUNS = 60;

/** A gravity, SG: marked, so that it can be written on either scale. */
class Gravity {
  constructor(readonly sg: number) {}
  on(scale: string): number {
    return scale === "SG" ? this.sg : number("CONVERT", this.sg, "SG", "P");
  }
}

/** A sensible value of each parameter, by its name; u is drawn evenly from 0 to 1. */
type Draw = (u: number, v: number) => unknown;
const within =
  (low: number, high: number): Draw =>
  (u) =>
    low + (high - low) * u;
const gravity =
  (low: number, high: number): Draw =>
  (u) =>
    new Gravity(low + (high - low) * u);
const rows =
  (...cells: readonly Draw[]): Draw =>
  (u, v) =>
    cells.map((cell) => [cell(u, v)]);

const wort = gravity(1.035, 1.06);
const beer = gravity(1.002, 1.02);
const strong = gravity(1.065, 1.1);

/** A fermentation read twice a day, with its start and its end drawn. */
const fall: Draw = (u, v) =>
  Array.from({ length: 20 }, (_, i) => [
    new Gravity(1.008 + 0.006 * v + (0.035 + 0.02 * u) / (1 + Math.exp((i - 6) / 1.4))),
  ]);
const days: Draw = () => Array.from({ length: 20 }, (_, i) => [46_082 + i / 2]);

const usual: Readonly<Record<string, Draw>> = {
  ...{ original: wort, final: beer, gravity: wort, target: strong, gravities: rows(wort, beer, strong) },
  ...{ hydrometer_gravity: beer, refractometer_reading: within(4.5, 7.5), expected_final: beer },
  ...{
    attenuation: within(50, 90),
    millilitres: within(100, 500),
    volume: within(10, 50),
    end_volume: within(7, 9),
  },
  ...{
    volumes: rows(within(5, 9), within(10, 20), within(1, 9)),
    amounts: rows(within(4, 9), within(0.1, 2)),
  },
  ...{
    yields: rows(within(70, 85), within(50, 80)),
    yield: within(70, 100),
    days: within(1, 3),
    times: days,
  },
  ...{ reading: within(1.035, 1.06), temperature: within(12, 28), temperature_uncertainty: within(0.1, 1) },
};

/** Where a function means something else by a name; undefined leaves the argument out. */
const own: Readonly<Record<string, Readonly<Record<string, Draw | undefined>>>> = {
  DILUTE: { gravity: strong, target: wort },
  "CO2.LATENT": { gravity: gravity(1.021, 1.03), unit: undefined },
  "BOIL.GRAVITY": { volume: within(10, 18) },
  EFFICIENCY: { volume: within(5, 12) },
  FLOATING: { reading: within(1.012, 1.05), instrument: () => "Bobber" },
  "REFRACTOMETER.WORT": { reading: within(5, 20) },
  "REFRACTOMETER.BEER": { reading: within(5.5, 7.5), original: within(1.045, 1.06) },
  "PLUSMINUS.REFRACTOMETER": { reading: within(5.5, 7.5), original: within(1.045, 1.06) },
  SEASON: {
    ...{ original_readings: within(1.035, 1.06), original_temperatures: within(12, 28) },
    ...{ final_readings: within(1.002, 1.02), final_temperatures: within(12, 28) },
  },
  "FERMENT.SMOOTH": { gravities: fall },
  "FERMENT.RATE": { gravities: fall, at: within(46_083, 46_088) },
  "FERMENT.REACHES": { gravities: fall, target: gravity(1.018, 1.03) },
  "FERMENT.STEADY": { gravities: fall, tolerance: undefined },
  "FERMENT.STAGES": { gravities: fall },
  "CALIBRATE.FACTOR": {
    refractometer_readings: () => [[8.4], [12.6], [16.2]],
    hydrometer_gravities: rows(...[1.0325, 1.0494, 1.0642].map((sg) => gravity(sg - 0.0005, sg + 0.0005))),
  },
  "CALIBRATE.SHIFT": {
    readings: () => [[1.021], [1.041]],
    true_gravities: rows(gravity(1.019, 1.022), gravity(1.039, 1.042)),
  },
};

/** The result is a gravity, on the scale that is asked for: in all of its columns, or in these. */
const givesGravity: Readonly<Record<string, true | readonly number[]>> = {
  ...{
    HYDROMETER: true,
    "REFRACTOMETER.WORT": true,
    "REFRACTOMETER.BEER": true,
    FLOATING: true,
    ORIGINAL: true,
  },
  ...{ "FINAL.EXPECTED": true, "BOIL.GRAVITY": true, BLEND: true, "FERMENT.SMOOTH": true },
  ...{ SEASON: [0, 1], "FERMENT.STAGES": [2] },
};

/** What is a difference of gravities is in other units on the other scale; that it is there is all that is compared. */
const givesDifference = ["FERMENT.RATE", "PLUSMINUS.HYDROMETER", "PLUSMINUS.REFRACTOMETER"];

const specs = catalogue.filter(({ parameters }) => parameters.some(({ name }) => name === "scale"));
const compared = specs.filter(({ parameters }) => !parameters.some(({ name }) => /plusminus/.test(name)));

const drawOf = (spec: FunctionSpec, name: string): Draw | undefined => {
  const mine = own[spec.name];
  return mine && name in mine ? mine[name] : usual[name];
};

/** Arguments of one call, with every gravity on one scale. */
function argumentsOn(spec: FunctionSpec, drawn: readonly unknown[], scale: string): unknown[] {
  const written = (value: unknown): unknown =>
    value instanceof Gravity ? value.on(scale) : Array.isArray(value) ? value.map(written) : value;
  return spec.parameters.map(({ name }, i) => (name === "scale" ? scale : written(drawn[i])));
}

const resultOf = (spec: FunctionSpec, drawn: readonly unknown[], scale: string): Result[] =>
  evaluate(spec.name, argumentsOn(spec, drawn, scale) as RawCells[], instruments).flat();

/** What a result in °P is as SG, if it is a gravity. */
function asSg(spec: FunctionSpec, result: Result, i: number): Result {
  const columns = givesGravity[spec.name];
  const width = spec.name === "SEASON" ? 5 : spec.name === "FERMENT.STAGES" ? 3 : 1;
  const isGravity = columns === true || columns?.includes(i % width);
  return isGravity === true && typeof result === "number" ? number("CONVERT", result, "P", "SG") : result;
}

describe.each(compared.map((spec) => [spec.name, spec] as const))("%s", (name, spec) => {
  test("comes to the same from °P as from SG", () => {
    const chance = uniform(spec.name.length, RUNS * spec.parameters.length * 2);
    let answers = 0;
    for (let run = 0; run < RUNS; run++) {
      const drawn = spec.parameters.map(({ name: parameter, optional, choices, namesInstrument }, i) => {
        const at = 2 * (run * spec.parameters.length + i);
        const [u = 0.5, v = 0.5] = chance.slice(at, at + 2);
        const draw = drawOf(spec, parameter);
        if (!draw)
          return optional || choices.length > 0 || namesInstrument
            ? undefined
            : expect.unreachable(parameter);
        return optional && !namesInstrument && v < 0.3 ? undefined : draw(u, v);
      });
      if (name === "FLOATING") drawn[1] = "Bobber";
      const [sg, plato] = [resultOf(spec, drawn, "SG"), resultOf(spec, drawn, "P")];
      expect(plato).toHaveLength(sg.length);
      for (const [i, expected] of sg.entries()) {
        const found = asSg(spec, plato[i] as Result, i);
        expect([name, typeof found, found instanceof CellError]).toEqual([
          name,
          typeof expected,
          expected instanceof CellError,
        ]);
        if (typeof expected === "boolean") expect(found).toBe(expected);
        if (typeof expected === "number" || typeof expected === "boolean") answers++;
        if (typeof expected !== "number") continue;
        if (!givesDifference.includes(name))
          expect(Math.abs((found as number) - expected)).toBeLessThanOrEqual(
            1e-6 * Math.max(1, Math.abs(expected)),
          );
      }
    }
    expect(answers).toBeGreaterThan(0.8 * RUNS);
  });
});

test("a gravity that a formula takes may be in °P, unless it is a reading of an instrument", () => {
  const written = /SG \(1\.\d+ or 1\d+\)|as SG\b/;
  const without = catalogue.flatMap(({ name, parameters }) =>
    parameters.some((each) => each.name === "scale")
      ? []
      : parameters
          .filter(
            ({ description }) => written.test(description) && !/units of the instrument/.test(description),
          )
          .map((each) => `${name} ${each.name}`),
  );
  expect(without).toEqual([]);
});

test("an uncertainty is of the same gravities on either scale", () => {
  const plato = (sg: number): number => number("CONVERT", sg, "SG", "P");
  /** ± of a gravity, °P, for so much of SG. */
  const spread = (sg: number, by: number): number => (plato(sg + by) - plato(sg - by)) / 2;
  for (const [name, ...more] of [
    ["PLUSMINUS.ABV"],
    ["PLUSMINUS.ATTENUATION"],
    ["PLUSMINUS.ATTENUATION", "REAL"],
  ])
    for (const [og, fg] of [
      [1.048, 1.012],
      [1.09, 1.02],
    ] as const) {
      const sg = number(name ?? "", og, fg, 0.001, 0.002, more[0]);
      const p = number(name ?? "", plato(og), plato(fg), spread(og, 0.001), spread(fg, 0.002), more[0], "P");
      expect(p / sg).toBeCloseTo(1, 4);
    }
});

test("every function with a scale is tried", () => {
  const names = specs.map(({ name }) => name);
  for (const name of [...Object.keys(own), ...Object.keys(givesGravity), ...givesDifference])
    expect(names).toContain(name);
  const left = specs.filter((spec) => !compared.includes(spec)).map(({ name }) => name);
  expect(left).toEqual(["PLUSMINUS.ABV", "PLUSMINUS.ATTENUATION"]);
});
