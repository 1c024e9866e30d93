// Common instruments as starting points for profiles.
import type { Profile } from "../../instruments/schema.js";

export interface Preset {
  readonly label: string;
  readonly says: string;
  /** A pair gives two. */
  readonly profiles: readonly Profile[];
}

const glass = {
  kind: "hydrometer",
  scale: "SG",
  temperatureUnit: "C",
  calibrationTemperature: 20,
  read: "level",
} as const;

// Common practice, no source: for wort, until an instrument's own factor replaces it.
const WORT_FACTOR = 1.04;

const prism = {
  kind: "refractometer",
  scale: "BX",
  temperatureUnit: "C",
  wortFactor: WORT_FACTOR,
} as const;

export const presets: readonly Preset[] = [
  {
    label: "Hydrometer, true at 20 °C",
    says: "One glass for everything; many say 20 °C on the paper or the box.",
    profiles: [{ ...glass, name: "Hydrometer" }],
  },
  {
    label: "Hydrometer, true at 60 °F",
    says: "One glass for everything; temperatures in °F.",
    profiles: [{ ...glass, name: "Hydrometer 60 °F", temperatureUnit: "F", calibrationTemperature: 60 }],
  },
  {
    label: "Narrow pair: starting and finishing",
    says: "Two glasses, each with a short scale that reads finely.",
    profiles: [
      { ...glass, name: "Starting hydrometer", lowest: 1.02, highest: 1.1, division: 0.001 },
      { ...glass, name: "Finishing hydrometer", lowest: 0.98, highest: 1.02, division: 0.001 },
    ],
  },
  {
    label: "Refractometer that compensates temperature",
    says: "°Bx from a drop; it corrects for temperature itself.",
    profiles: [{ ...prism, name: "Refractometer", compensates: true }],
  },
  {
    label: "Refractometer without compensation",
    says: "°Bx from a drop; formulas need the temperature too.",
    profiles: [{ ...prism, name: "Refractometer", compensates: false }],
  },
  {
    label: "Floating hydrometer",
    says: "Logs all through fermentation; calibrate it against a glass one.",
    profiles: [{ kind: "floating", name: "Floating hydrometer", scale: "SG", pairs: [] }],
  },
];
