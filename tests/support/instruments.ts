import { parseSet } from "../../src/instruments/set.js";

/** Instruments of an invented brewery, as their file would have them. */
export const instruments = parseSet(
  JSON.stringify({
    version: 1,
    instruments: [
      {
        name: "Starting glass",
        kind: "hydrometer",
        scale: "SG",
        temperatureUnit: "C",
        calibrationTemperature: 20,
        lowest: 1.03,
        highest: 1.1,
        read: "level",
      },
      {
        name: "Finishing glass",
        kind: "hydrometer",
        scale: "SG",
        temperatureUnit: "C",
        calibrationTemperature: 20,
        lowest: 0.98,
        highest: 1.03,
        read: "top",
        meniscusAllowance: 0.001,
      },
      {
        name: "Old sixty",
        kind: "hydrometer",
        scale: "SG",
        temperatureUnit: "F",
        calibrationTemperature: 60,
        read: "level",
        checks: [{ reading: 0.999, true: 1 }],
      },
      {
        name: "Plato spindle",
        kind: "hydrometer",
        scale: "P",
        temperatureUnit: "C",
        calibrationTemperature: 20,
        maximumError: 0.1,
        read: "level",
      },
      {
        name: "Pocket prism",
        kind: "refractometer",
        scale: "BX",
        temperatureUnit: "C",
        compensates: true,
        wortFactor: 1.02,
        waterReading: 0.1,
      },
      {
        name: "Brass prism",
        kind: "refractometer",
        scale: "BX",
        temperatureUnit: "F",
        compensates: false,
        wortFactor: 1,
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
      },
    ],
  }),
);
