import type { CalibrationWarning } from "../../core/instrument/calibration-fit.js";
import type { Column } from "./calibration-pairs.js";
import { fixed } from "../parts/number-text.js";

/** Names of the columns as used in sentences. */
export const fieldNames: Readonly<Record<Column, string>> = {
  reading: "reading",
  temperature: "temperature",
  strength: "true strength",
};

/** Number format of a fit. */
export interface Figures {
  readonly decimals: number;
  readonly unit: string;
}

/** A number with its unit; a specific gravity has none. */
export const textWithUnit = (text: string, unit: string): string =>
  unit === "SG" || unit === "" ? text : `${text} ${unit}`;

/** @param nameOf the number of a pair, as shown on the screen */
export function calibrationWarning(
  warning: CalibrationWarning,
  { decimals, unit }: Figures,
  nameOf: (pair: number) => string,
): string {
  const figure = (value: number): string => textWithUnit(fixed(value, decimals), unit);
  switch (warning.kind) {
    case "outlier":
      return `${nameOf(warning.pair)} stands out from the others. It is not left out: read it again, or remove it.`;
    case "few-pairs":
      return `${warning.given === 1 ? "One pair does" : `${warning.given} pairs do`} not show how well readings agree; ${warning.wanted} or more would.`;
    case "uneven":
      return `One shift leaves up to ${figure(warning.residual)}. The scale may be uneven: check points would follow it.`;
    case "scattered":
      return `The pairs scatter by ${figure(warning.standardDeviation)}; more than ${figure(warning.allowed)} is not usual.`;
    case "short-span":
      return `The readings span only ${figure(warning.span)}, so a slip of reading tilts the line. Pairs ${figure(warning.wanted)} apart or more hold it.`;
    case "weak-wort":
      return `${nameOf(warning.pair)} is thin wort, in which a slip of reading weighs much. Better is wort of ${warning.wanted} °P or more.`;
  }
}
