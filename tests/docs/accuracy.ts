// How far printed figures are missed at worst, for README: each measured anew against its table in tests/reference.
import { alcoholByVolume } from "../../src/core/beer/alcohol-methods.js";
import { beerByExtracts } from "../../src/core/beer/beer.js";
import { energy } from "../../src/core/beer/energy.js";
import { ethanolDensity } from "../../src/core/liquid/ethanol-density.js";
import { extractMass } from "../../src/core/brewhouse/extract-mass.js";
import { extractOfGravity, gravityOfExtract } from "../../src/core/liquid/gravity.js";
import { extractByHydrometer, plainHydrometer } from "../../src/core/instrument/hydrometer.js";
import { sucroseIndex } from "../../src/core/liquid/refractive-index.js";
import { refractometerCorrection } from "../../src/core/instrument/refractometer-temperature.js";
import { waterDensity } from "../../src/core/liquid/water-density.js";
import { figure, mean, reference, rowsWith } from "../support/reference.js";

export interface Measured {
  readonly what: string;
  readonly table: string;
  readonly off: number;
  readonly unit: string;
}

type Row = ReturnType<typeof reference>[number];

/** The greatest difference over all rows; NaN if one of them cannot be had. */
const greatest = (rows: readonly Row[], difference: (row: Row) => number): number =>
  Math.max(...rows.map((row) => Math.abs(difference(row))));

const upTo30 = (row: Row): boolean => figure(row, "brix_read") <= 30;

function hydrometer(from: number, to: number): number {
  const brix20 = { ...plainHydrometer, scale: "BX" } as const;
  const rows = reference("hydrometer-temp-brix20-transcribed").filter(
    (row) => figure(row, "t_C") >= from && figure(row, "t_C") <= to,
  );
  return Math.max(
    ...rows.flatMap((row) =>
      Object.keys(row)
        .filter((column) => column.startsWith("bx"))
        .map((column) => {
          const reading = Number(column.slice(2));
          return Math.abs(
            extractByHydrometer(reading, figure(row, "t_C"), brix20) - reading - figure(row, column),
          );
        }),
    ),
  );
}

/** Alcohol by the default method less alcohol by distillation, for the 34 beers. */
const distilled = (): number[] =>
  reference("alcohol-beer-usda493-paired").map(
    (row) =>
      alcoholByVolume(
        extractOfGravity(figure(row, "wort_sg")),
        extractOfGravity(figure(row, "beer_sg")),
        "BALLING",
      ) - figure(row, "abv_meas"),
  );

const HYDROMETER = "corrections to a 20 °C Brix hydrometer, the table of the NBS C440 and AOAC 900.03 family";
const BEERS = "34 beers distilled: Tolman and Riley, USDA Bulletin 493, 1917";

export const measured = (): Measured[] => [
  {
    what: "°P to SG, 0 to 30 °P",
    table: "NBS Circular C440, Table 114",
    off: greatest(
      reference("plato-sg-nbs114-apparent"),
      (row) => gravityOfExtract(figure(row, "brix")) - figure(row, "apparent_sg_20_20"),
    ),
    unit: "SG",
  },
  {
    what: "extract in a litre of wort, 1.001 to 1.079",
    table: "printed table of a Russian state standard (GOST)",
    off: greatest(
      reference("plato-sg-extract-gl-gost").filter((row) => figure(row, "d20_20") > 1),
      (row) =>
        1000 * extractMass(1, extractOfGravity(figure(row, "d20_20"))) - figure(row, "extract_g_per_L"),
    ),
    unit: "g/L",
  },
  { what: "hydrometer, sample of 10 to 19 °C", table: HYDROMETER, off: hydrometer(10, 19), unit: "°Bx" },
  { what: "hydrometer, 21 to 25 °C", table: HYDROMETER, off: hydrometer(21, 25), unit: "°Bx" },
  { what: "hydrometer, 26 to 30 °C", table: HYDROMETER, off: hydrometer(26, 30), unit: "°Bx" },
  {
    what: "refractometer, temperature correction, 10 to 30 °C",
    table: "international table of 1936",
    off: greatest(
      reference("refractive-tempcorr-1936").filter(upTo30),
      (row) => refractometerCorrection(figure(row, "brix_read"), figure(row, "t_C")) - figure(row, "add"),
    ),
    unit: "°Bx",
  },
  {
    what: "refractive index of sugar, 0 to 30 °Bx",
    table: "CRC Handbook, 102nd edition",
    off: greatest(
      rowsWith("refractive-sucrose-n20", "crc_n").filter((row) => figure(row, "mass_pct") <= 30),
      (row) => sucroseIndex(figure(row, "mass_pct")) - figure(row, "crc_n"),
    ),
    unit: "",
  },
  {
    what: "density of ethanol in water, 10 to 40 °C",
    table: "Bureau of Standards, 1913",
    off: greatest(
      reference("alcohol-oiml-check-nbs"),
      (row) =>
        ethanolDensity(figure(row, "mass_pct") / 100, figure(row, "t_C")) - 1000 * figure(row, "printed_gml"),
    ),
    unit: "kg/m³",
  },
  {
    what: "density of water, 0 to 80 °C",
    table: "IAPWS-95",
    off: greatest(
      reference("water-density-table").filter((row) => figure(row, "t_C") <= 80),
      (row) => waterDensity(figure(row, "t_C")) - figure(row, "iapws95"),
    ),
    unit: "kg/m³",
  },
  { what: "alcohol, mean of all", table: BEERS, off: Math.abs(mean(distilled())), unit: "% vol" },
  {
    what: "alcohol, the worst of all",
    table: BEERS,
    off: Math.max(...distilled().map(Math.abs)),
    unit: "% vol",
  },
  {
    what: "energy of 100 mL",
    table: "ASBC Beer-33, worked out elsewhere for four beers",
    off: greatest(
      reference("alcohol-beer-calories"),
      (row) =>
        energy(
          beerByExtracts(extractOfGravity(figure(row, "OG")), extractOfGravity(figure(row, "FG"))),
          100,
        ) - figure(row, "kcal_100mL"),
    ),
    unit: "kcal",
  },
];
