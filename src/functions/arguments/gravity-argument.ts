import {
  extractOfGravity,
  extractRange,
  gravityOfExtract,
  gravityRange,
  TABLE_114,
} from "../../core/liquid/gravity.js";
import { checkRange, type Range } from "../../core/refusal.js";
import { writtenSg } from "../../core/liquid/scales.js";
import { step, type Listener } from "../../core/steps.js";
import { choiceOr, measurement, type ArgumentSpec, type Beside } from "../contract/argument.js";
import { CellError } from "../contract/cell-value.js";
import { notSg, zeroOrEmpty } from "../contract/messages.js";

/** Scales for gravities in formulas. */
export type GravityScale = "SG" | "P";

const SCALES: readonly GravityScale[] = ["SG", "P"];

/** @param what whose scale it is */
export const scale = (what: string): ArgumentSpec<GravityScale> =>
  choiceOr("SG", {
    label: "scale",
    description: `${what}: "SG" (apparent, 20 °C/20 °C), or "P" for °P. If omitted, "SG".`,
    from: SCALES,
  });

function saysPlato(beside: Beside): boolean {
  const scale = beside("scale");
  return typeof scale === "string" && scale.trim().toUpperCase() === "P";
}

/** A gravity on the SG scale. @throws CellError outside the range, with a hint about °P and points */
export function readSg(value: number, label: string, range: Range): number {
  const sg = writtenSg(value);
  if (!(sg >= range.min && sg <= range.max)) throw new CellError("#VALUE!", notSg(label, value, range));
  return sg;
}

/** Extract of a gravity in a cell, °P. */
export function readGravity(value: number, scale: GravityScale, label: string, to?: Listener): number {
  if (scale === "SG") {
    const extract = extractOfGravity(readSg(value, label, gravityRange));
    return to ? step(to, `extract of the ${label}`, extract, "°P", TABLE_114) : extract;
  }
  if (value === 0)
    throw new CellError("#VALUE!", zeroOrEmpty(label, 'scale "P"', "0.01", "it really is 0 °P"));
  checkRange({ ...extractRange, of: label }, value);
  return value;
}

/** A gravity as shown in a cell. */
export function writeGravity(extract: number, scale: GravityScale, to?: Listener): number {
  return scale === "SG" ? step(to, "gravity", gravityOfExtract(extract), "SG", TABLE_114) : extract;
}

/** A gravity before fermentation; if it is empty, the result is blank. */
export const gravity = (label: string, description: string): ArgumentSpec<number> =>
  measurement({ label, description });

/** A gravity that may really be 0 °P, so a 0 on that scale is ambiguous and refused. */
export const finalGravity = (label: string, description: string): ArgumentSpec<number> =>
  measurement({ label, description, zeroIsValue: saysPlato });
