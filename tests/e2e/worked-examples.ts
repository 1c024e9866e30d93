// One worked example for each function, in cells as Excel sends them. What it gives comes from outside of this project.
import { figure, reference } from "../support/reference.js";

export interface WorkedExample {
  /** Arguments without optional ones at the end; a list as a column, a single cell as it is. */
  readonly args: readonly unknown[];
  /** The cells of the result, row by row. */
  readonly gives: readonly (number | string | boolean)[];
  /** Rows that these are; one if left out. */
  readonly rows?: number;
  /** By how much each may be off: the accuracy of the source. */
  readonly within: readonly number[];
  /**
   * Where ranges may stand: in the first two arguments, the one down and the other across; only down; or, as all arguments
   * are lists that come to one result, nowhere.
   */
  readonly spreads: "grid" | "down" | "no";
}

const one = (
  args: readonly unknown[],
  gives: number | boolean,
  within: number,
  spreads: WorkedExample["spreads"] = "grid",
): WorkedExample => ({ args, gives: [gives], within: [within], spreads });

const row = (name: string, column: string, value: string) =>
  reference(name).find((each) => each[column] === value);

/** 1.048 fermented to 1.012, by other code. Its gravities are true, ours apparent: up to 0.02 °P apart. */
const beer = row("alcohol-beer-method-comparison", "OG", "1.048");
const ofBeer = (column: string, within: number): WorkedExample =>
  one([1.048, 1.012], figure(beer, column), within);

/** The same beer in the refractometer, wort correction factor 1.04. */
const refracted = figure(
  reference("refractive-model-grid").find(
    (each) => each["OG"] === "1.048" && each["FG"] === "1.0120" && each["k"] === "1.04",
  ),
  "beer_brix",
);

// Printed extract of wort, g/L. Ours is within 0.15 g/L of it; the balances below take it as it is.
const extract = (sg: string): number =>
  figure(row("plato-sg-extract-gl-gost", "d20_20", sg), "extract_g_per_L");
const water = (sg: string): number => 998.2 * Number(sg) - extract(sg); // g in a litre; 998.2 kg/m³ is water at 20 °C

/** Expanded uncertainty of what may be off by so much either way. */
const plusMinus = (...halfWidths: readonly number[]): number =>
  2 * Math.hypot(...halfWidths.map((each) => each / Math.sqrt(3)));

/** SG that a hydrometer in wort of 1.050 is moved by 1 °C at 20 °C. */
const warmer = (tC: string): number =>
  figure(row("hydrometer-temp-sg2020-computed", "t_C", tC), "sg1.050") / 1000;
const perDegree = (warmer("25") - warmer("15")) / 10;

/** °P for 1 SG about so many °P, by the printed table. */
const printedSg = (brix: number): number =>
  figure(row("plato-sg-nbs114-apparent", "brix", brix.toFixed(1)), "apparent_sg_20_20");
const perSg = (brix: number): number => 2 / (printedSg(brix + 1) - printedSg(brix - 1));

/** White sugar for 30 L, so that extract and water come to the ratio of the stronger wort. */
const sugar = (30 * (water("1.036") * (extract("1.040") / water("1.040")) - extract("1.036"))) / 1000;

const list = (...cells: readonly unknown[]): unknown[][] => cells.map((cell) => [cell]);

/** Read once a day: falls of 2, 16, 14, 6 and 2 points, and then three days without any. */
const log = [
  list(46082, 46083, 46084, 46085, 46086, 46087, 46088, 46089, 46090),
  list(1.05, 1.048, 1.032, 1.018, 1.012, 1.01, 1.01, 1.01, 1.01),
];

export const workedExamples: Readonly<Record<string, WorkedExample>> = {
  // Computed by other code from the same equation, in 0.001 SG; its gravity scale is up to 0.00002 apart.
  HYDROMETER: one(
    [1.05, 25],
    1.05 + figure(row("hydrometer-temp-sg2020-computed", "t_C", "25"), "sg1.050") / 1000,
    0.00003,
  ),
  "REFRACTOMETER.WORT": one([12.48, null, null, "P"], 12, 1e-9), // 1.04 × 12 (common practice, no source)
  "REFRACTOMETER.BEER": one([refracted, 1.048], 1.012, 0.0005),
  FLOATING: one([1.03, "Bobber"], 1.031, 1e-9), // half way between 1.012 and 1.050, as its profile has them
  CONVERT: one(
    [12, "P", "SG"],
    figure(row("plato-sg-nbs114-apparent", "brix", "12.0"), "apparent_sg_20_20"),
    1e-5,
  ),
  SEASON: {
    args: [1.048, 20, 1.012, 20],
    gives: [1.048, 1.012, figure(beer, "abv_exact"), figure(beer, "ADF"), figure(beer, "RDF")],
    within: [1e-9, 1e-9, 0.05, 0.1, 0.1],
    spreads: "down",
  },
  ABV: ofBeer("abv_exact", 0.05),
  ABW: ofBeer("ABW", 0.05),
  "ATTENUATION.APPARENT": ofBeer("ADF", 0.1),
  "ATTENUATION.REAL": ofBeer("RDF", 0.1),
  "EXTRACT.REAL": ofBeer("RE_P", 0.03),
  ORIGINAL: one([1.012, refracted], 1.048, 0.0005),
  "FINAL.EXPECTED": one([12, 75, "P"], 3, 1e-9), // by definition
  ENERGY: one([1.048, 1.012], figure(row("alcohol-beer-calories", "OG", "1.048"), "kcal_100mL"), 0.1),
  // Balling: 0.9565 g for each gram of alcohol, which came of wort that has since lost 1.0665 g for it.
  "CO2.LATENT": one(
    [1.048, 1.012, "G/L", 1.048],
    (0.9565 * 998.2 * 1.048 * figure(beer, "ABW")) / (100 + 1.0665 * figure(beer, "ABW")),
    0.05,
  ),
  // By hand: rectangular half-widths over √3, slopes from tables, twice the root of the sum of squares.
  "PLUSMINUS.HYDROMETER": one(
    [1.05, 20],
    Math.hypot(plusMinus(0.0005, 0.001, perDegree), 370e-6 * 1.05),
    0.00002,
  ),
  "PLUSMINUS.REFRACTOMETER": one(
    [12.48, null, null, null, "P"],
    plusMinus(0.1 / 1.04, 0.2 / 1.04, (12 * 0.04) / 1.04),
    0.002,
  ),
  "PLUSMINUS.ABV": one(
    [1.048, 1.012, 0.002, 0.002],
    2 * Math.hypot(0.13, 0.13, (Math.hypot(0.1, 0.13) / 5.59) * figure(beer, "abv_exact")),
    0.01, // 0.13 % vol for a degree of gravity (reference notes) has two digits
  ),
  "PLUSMINUS.ATTENUATION": one(
    [1.048, 1.012, 0.001, 0.001],
    (100 / figure(beer, "OE_P")) *
      Math.hypot(perSg(3), (perSg(12) * figure(beer, "AE_P")) / figure(beer, "OE_P")) *
      0.001,
    0.02,
  ),
  "VOLUME.COOLED": one([100, 100], 96, 0.5), // 4 % less (common practice, no source)
  "EXTRACT.MASS": one([1, 1.048], extract("1.048") / 1000, 0.00015),
  "EXTRACT.POTENTIAL": one(
    [
      [[4], [1]],
      [[80], [70]],
    ],
    3.9,
    1e-9,
    "no",
  ), // 3.2 + 0.7
  EFFICIENCY: one([1, 1.048, [[0.1], [0.1]], [[80], [80]]], extract("1.048") / 1.6, 0.1),
  "BOIL.GRAVITY": one([30, 1.04, (30 * extract("1.040")) / extract("1.048")], 1.048, 0.0001),
  "BOIL.VOLUME": one([30, 1.04, 1.048], (30 * extract("1.040")) / extract("1.048"), 0.05),
  // Volumes nearly add up: 23 L hold as much extract as before.
  DILUTE: one([23, 1.056, 1.048], (23 * extract("1.056")) / extract("1.048") - 23, 0.06),
  FORTIFY: one([30, 1.036, 1.04], sugar, 0.01),
  BLEND: one(
    [
      [[10], [10]],
      [[1.056], [1.04]],
    ],
    1.048,
    0.0001,
    "no",
  ),
  "FERMENT.SMOOTH": one([46082, 1.05], 1.05, 1e-9), // one reading has nothing to be smoothed with
  "FERMENT.RATE": one([...log, 46083], 9, 1e-6, "no"), // 18 points in two days
  "FERMENT.REACHES": one([...log, 1.025], 46084.5, 1e-6, "no"), // half way from 1.032 to 1.018
  "FERMENT.STEADY": one(log, true, 0, "no"), // three days (common practice, no source)
  "FERMENT.STAGES": {
    args: log,
    // Half of 15 points a day, between 10 and 4 on the fourth and fifth of March: 2.5/6 of that day, and of its 6 points.
    gives: [
      ...["started", 46083, 1.048],
      ...["fastest", 46084, 1.032],
      ...["slowing", 46085 + 2.5 / 6, 1.018 - 0.0025],
      ...["steady", 46087, 1.01],
    ],
    within: [0, 1e-6, 1e-9, 0, 1e-6, 1e-9, 0, 1e-6, 1e-9, 0, 1e-6, 1e-9],
    rows: 4,
    spreads: "no",
  },
  // By definition, with the printed gravity of 10 °Bx: within its last digit.
  "CALIBRATE.FACTOR": one(
    [
      [[10.3], [10.3]],
      [[printedSg(10)], [printedSg(10)]],
    ],
    1.03,
    0.0002,
    "no",
  ),
  "CALIBRATE.SHIFT": one(
    [
      [[1.001], [1.051], [1.041]],
      [[1], [1.05], [1.04]],
    ],
    -0.001,
    1e-9,
    "no",
  ),
  INSTRUMENT: { args: ["Pocket prism", "SCALE"], gives: ["BX"], within: [0], spreads: "grid" },
};
