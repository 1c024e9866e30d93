import { volumeRange } from "../../core/brewhouse/amounts.js";
import { yieldRanges } from "../../core/brewhouse/grist.js";
import { massUnitByYield, volumeUnitByYield, yieldUnit } from "../../functions/arguments/amount-arguments.js";
import { amountUnits, type AmountUnits } from "../../functions/arguments/amount-units.js";
import { CellError } from "../../functions/contract/cell-value.js";
import type { Interval } from "../fit/interval.js";
import { atLeast, constant, type InputCondition, type Expression } from "../fit/expression.js";
import type { FoldedCall, Input, LiveFunction } from "./live-function.js";
import { givesNoNumber } from "./not-live.js";
import { piece, type FittedFunction } from "./pieces.js";

export const volumeInput: Input = {
  parameter: "volume",
  whenEmpty: "blank-or-0",
  interval: { min: 1, max: 100 },
};

/** Relative to the result, or to 1 if that is larger. */
export const CLOSE = { tolerance: 1e-4, unit: "of the result", relative: true } as const;

export const isVolume = (x: Expression): readonly InputCondition[] => [
  atLeast(x, constant(volumeRange.min)),
  atLeast(constant(volumeRange.max), x),
];

/** Units of a call with yields, resolved as the function does. */
export function unitsOf({ constants }: FoldedCall): AmountUnits {
  try {
    return amountUnits({
      yield_unit: yieldUnit.read(constants["yield_unit"]),
      volume_unit: volumeUnitByYield.read(constants["volume_unit"]),
      mass_unit: massUnitByYield("").read(constants["mass_unit"]),
    });
  } catch (error) {
    if (error instanceof CellError) throw givesNoNumber();
    throw error;
  }
}

/** Extract share of a fermentable, by its yield. */
export const yieldPiece = (unit: string | number | undefined): FittedFunction => {
  const written = String(unit ?? "").trim();
  const known = written === "" || written === "0" ? "PCT" : written.toUpperCase();
  const range = new Map<string, Interval>(Object.entries(yieldRanges)).get(known);
  if (!range) throw givesNoNumber();
  return piece("EXTRACT.POTENTIAL", "yields", { amounts: 1, yield_unit: unit }, range, 1e-7);
};

export type Build = (call: FoldedCall, at: (parameter: string) => Expression) => Omit<LiveFunction, "inputs">;
export interface Balance {
  readonly inputs: (call: FoldedCall) => readonly Input[];
  readonly build: Build;
}
