/** A thermometer's unit, by the spreadsheet's own CONVERT codes. */
export type TemperatureUnit = "C" | "F";

/** °C from a thermometer's own unit. */
export function celsius(value: number, unit: TemperatureUnit): number {
  return unit === "C" ? value : ((value - 32) * 5) / 9;
}

/** A difference of temperatures in °C from one in a thermometer's own unit. */
export function celsiusDifference(value: number, unit: TemperatureUnit): number {
  return unit === "C" ? value : (value * 5) / 9;
}

/** A thermometer's own unit from °C. */
export function fromCelsius(tC: number, unit: TemperatureUnit): number {
  return unit === "C" ? tC : (tC * 9) / 5 + 32;
}
