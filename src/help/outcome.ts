// Numbers on help pages, with as many digits as the quantity deserves.
import { shown } from "../functions/contract/messages.js";
import { isoTime } from "../functions/contract/log-time.js";
import { CellError, type Result } from "../functions/contract/cell-value.js";

/** Decimals by unit. A gravity has one more than a glass shows, so that a calculation can be followed. */
const decimals: Readonly<Partial<Record<string, number>>> = {
  SG: 4,
  "°P": 2,
  "°Bx": 2,
  "% vol": 2,
  "%": 1,
  "% m/m": 2,
};

/** Anything smaller is an uncertainty or a shift, in units of SG. */
const NO_GRAVITY = 0.1;

/** A number without its unit. */
export function figure(value: number, unit: string): string {
  if (unit === "date-time") return isoTime(value);
  const places = decimals[unit];
  if (unit === "SG" && Math.abs(value) < NO_GRAVITY) return shown(Number(value.toPrecision(2)));
  return places === undefined ? shown(Number(value.toPrecision(5))) : value.toFixed(places);
}

/** A number with its unit; only SG is not printed. */
export const withUnit = (value: number, unit: string): string =>
  unit === "SG" || unit === "date-time" || unit === ""
    ? figure(value, unit)
    : `${figure(value, unit)} ${unit}`;

/** Any cell, formatted as in a spreadsheet. */
export function shownCell(cell: Result, unit = ""): string {
  if (cell instanceof CellError) return `${cell.code} ${cell.message}`.trim();
  if (typeof cell === "number") return figure(cell, unit);
  return typeof cell === "boolean" ? String(cell).toUpperCase() : cell;
}
