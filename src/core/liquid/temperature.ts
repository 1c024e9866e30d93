/** Unit of a thermometer, by the spreadsheet's CONVERT codes. */
export type TemperatureUnit = "C" | "F";

/** Converts a thermometer reading to °C. */
export function celsius(value: number, unit: TemperatureUnit): number {
  return unit === "C" ? value : ((value - 32) * 5) / 9;
}

/** Converts a temperature difference to °C. */
export function celsiusDifference(value: number, unit: TemperatureUnit): number {
  return unit === "C" ? value : (value * 5) / 9;
}

/** Converts °C to the unit of a thermometer. */
export function fromCelsius(tC: number, unit: TemperatureUnit): number {
  return unit === "C" ? tC : (tC * 9) / 5 + 32;
}
