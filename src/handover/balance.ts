import { volumeRange } from "../core/amounts.js";
import { gravityRange } from "../core/gravity.js";
import { yieldRanges } from "../core/grist.js";
import type { Extent } from "./chebyshev-fit.js";
import { atLeast, constant, type Condition, type Expression } from "./expression.js";
import type { FoldedCall, Input, LiveFunction } from "./live-function.js";
import { givesNoNumber } from "./not-live.js";
import { numberOf, piece, type Piece } from "./pieces.js";

export const volume: Input = { parameter: "volume", whenEmpty: "blank-or-0", extent: { min: 1, max: 100 } };
export const gravityInput = (parameter: string, extent: Extent = gravityRange): Input => ({
  parameter,
  whenEmpty: "blank-or-0",
  extent,
});

/** Shares of the result, and of 1 where it is less. */
export const CLOSE = { bar: 1e-4, unit: "of the result", relative: true } as const;

export const isVolume = (x: Expression): readonly Condition[] => [
  atLeast(x, constant(volumeRange.min)),
  atLeast(constant(volumeRange.max), x),
];

/** Mass of extract in one unit of volume, by gravity. */
export const massPiece = (volumeUnit?: string | number, massUnit?: string | number): Piece => {
  const scale = numberOf("EXTRACT.MASS", 1, 1.05, volumeUnit, massUnit);
  const constants = { volume: 1, volume_unit: volumeUnit, mass_unit: massUnit };
  return piece("EXTRACT.MASS", "gravity", constants, gravityRange, scale * 1e-6);
};

/** Share of a fermentable that is extract, by its yield. A yield of 0 is none, so that it is written as what is left out. */
export const yieldPiece = (unit: string | number | undefined): Piece => {
  const written = String(unit ?? "").trim();
  const known = written === "" || written === "0" ? "PCT" : written.toUpperCase();
  const range = new Map<string, Extent>(Object.entries(yieldRanges)).get(known);
  if (!range) throw givesNoNumber();
  return piece("EXTRACT.POTENTIAL", "yields", { amounts: 1, yield_unit: unit }, range, 1e-7);
};

export type Build = (call: FoldedCall, at: (parameter: string) => Expression) => Omit<LiveFunction, "inputs">;
export interface Balance {
  readonly inputs: readonly Input[];
  readonly build: Build;
}
