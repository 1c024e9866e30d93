// The cells and instruments of the worked examples: those of an invented brewery.
import type { Profile } from "../instruments/schema.js";
import { FORMAT_VERSION, type InstrumentSet } from "../instruments/set.js";

/** Columns by their letter, each with a heading, and the row of the first value. */
export interface SampleCells {
  /** Row of the first values, from 1. The headings are above it. */
  readonly row: number;
  readonly columns: Readonly<Record<string, readonly [heading: string, ...values: (number | string)[]]>>;
}

/** Time of a reading in the log, every twelve hours from 2 March. */
const logged = (i: number): string =>
  new Date(Date.UTC(2026, 2, 2, 18 + 12 * i)).toISOString().slice(0, 16).replace("T", " ");

const glass = {
  kind: "hydrometer",
  scale: "SG",
  temperatureUnit: "C",
  calibrationTemperature: 20,
  division: 0.001,
  read: "level",
} as const;

const profiles: readonly Profile[] = [
  { ...glass, name: "Starting glass", lowest: 1.02, highest: 1.1 },
  { ...glass, name: "Finishing glass", lowest: 0.98, highest: 1.03, read: "top", meniscusAllowance: 0.001 },
  { ...glass, name: "Old glass", temperatureUnit: "F", calibrationTemperature: 60 },
  {
    name: "Pocket prism",
    kind: "refractometer",
    scale: "BX",
    temperatureUnit: "C",
    compensates: true,
    wortFactor: 1.02,
    waterReading: 0.1,
    division: 0.2,
  },
  {
    name: "Brass prism",
    kind: "refractometer",
    scale: "BX",
    temperatureUnit: "C",
    compensates: false,
    wortFactor: 1.03,
    division: 0.2,
  },
  {
    name: "Bobber",
    kind: "floating",
    scale: "SG",
    pairs: [
      { reading: 1.01, true: 1.012 },
      { reading: 1.05, true: 1.05 },
    ],
    scatter: 0.0005,
  },
];

export const sampleInstruments: InstrumentSet = { version: FORMAT_VERSION, instruments: [...profiles] };

const grist: SampleCells = {
  row: 2,
  columns: { C: ["amount, kg", 4.2, 0.5, 0.3], D: ["extract, %", 80, 76, 70] },
};

/** The fifth reading was taken in foam. */
const gravities = [
  1.048, 1.0475, 1.044, 1.0382, 1.041, 1.0262, 1.0218, 1.0186, 1.0163, 1.0148,
  1.0138, 1.0131, 1.0126, 1.0123, 1.0121, 1.012, 1.012, 1.012, 1.012,
]; // prettier-ignore

/** The log up to a number of readings. */
const log = (readings = gravities.length): SampleCells => ({
  row: 2,
  columns: {
    A: ["when", ...gravities.slice(0, readings).map((_, i) => logged(i))],
    B: ["gravity", ...gravities.slice(0, readings)],
  },
});

/** By function, for those whose example reads cells. */
export const sampleCells: Readonly<Partial<Record<string, SampleCells>>> = {
  FLOATING: { row: 2, columns: { B: ["as logged", 1.05, 1.031, 1.016, 1.0105] } },
  SEASON: {
    row: 4,
    columns: {
      D: ["starting reading", 1.046, 1.052, 1.039],
      E: ["°C", 27, 18, 22],
      G: ["finishing reading", 1.01, 1.012],
      H: ["°C", 19, 20],
    },
  },
  "EXTRACT.POTENTIAL": grist,
  EFFICIENCY: grist,
  BLEND: { row: 2, columns: { A: ["volume, L", 12, 10, 8], B: ["gravity", 1.062, 1.034, 1.012] } },
  "CALIBRATE.FACTOR": {
    row: 2,
    columns: {
      B: ["refractometer, °Bx", 8.4, 10.3, 11.7, 12.6, 13.5, 14.8, 16.2, 18.1],
      C: ["hydrometer", 1.0325, 1.0398, 1.0456, 1.0494, 1.0528, 1.0582, 1.0642, 1.0722],
    },
  },
  "CALIBRATE.SHIFT": {
    row: 2,
    columns: { B: ["reading", 1.001, 1.041, 1.081], C: ["true gravity", 1, 1.04, 1.08] },
  },
  "FERMENT.SMOOTH": log(),
  "FERMENT.RATE": { row: 2, columns: { ...log().columns, D: ["at", logged(5)] } },
  "FERMENT.REACHES": log(),
  "FERMENT.STEADY": log(),
  "FERMENT.STAGES": log(),
};
