import { shownTime } from "./shown-time.js";

/** Significant decimals by unit. */
const decimals: Readonly<Record<string, number>> = {
  SG: 5,
  "SG 60/60 °F": 5,
  "°P": 3,
  "°Bx": 3,
  "kg/m³": 2,
  "% vol": 3,
  "% m/m": 3,
  "%": 2,
  points: 2,
};

/** A number with its unit for reading, to the last significant decimal. */
export function quantity(value: number, unit: string): string {
  if (unit === "date-time") return shownTime(value);
  const places = decimals[unit];
  const text = places === undefined ? String(Number(value.toPrecision(6))) : value.toFixed(places);
  // Gravities are written without a unit, as brewers say them.
  return unit === "" || unit === "SG" ? text : `${text} ${unit}`;
}
