import { CO2_PER_ALCOHOL, GRAMS_PER_VOLUME } from "../../core/beer/latent-co2.js";
import { LOST_PER_ALCOHOL } from "../../core/liquid/mixture.js";
import { atLeast, combined, constant, input, leftOut, type Expression } from "../fit/expression.js";
import type { Branch, FoldedCall, LiveFunction } from "./live-function.js";
import { alcoholPiece, piece } from "./pieces.js";
import { fitted, gravityOn, inputsOf, word, type Recipe } from "./quantities.js";

const isInVolumes = (call: FoldedCall): boolean => word(call, "unit", "G/L") === "VOL";

/** For an original gravity that is a constant or omitted: a polynomial of the two others. */
export const latentRecipe = (call: FoldedCall): Recipe => ({
  ...(isInVolumes(call) ? { tolerance: 0.005, unit: "volumes" } : { tolerance: 0.01, unit: "g/L" }),
  numbers: [gravityOn(call, "gravity", true), gravityOn(call, "expected_final", true)],
});

/**
 * For an original gravity in a cell: Balling's balance, composed from the alcohol by mass now and at the end. The wort
 * that both were made of cancels out: density × 0.9565 × (end − now) / (100 + 1.0665 × end).
 */
export function latentCo2Live(call: FoldedCall): LiveFunction {
  const { tolerance, unit, numbers: pair } = latentRecipe(call);
  const original = { ...gravityOn(call, "original"), whenEmpty: "left-out" } as const;
  const inputs = inputsOf(call, [...pair, original]);
  const at = (parameter: string): Expression => {
    const i = inputs.findIndex((each) => each.parameter === parameter);
    return original.of(i < 0 ? constant(Number(call.constants[parameter])) : input(i));
  };
  const scale = word(call, "scale", "SG");
  const [before, now, end] = [at("original"), at("gravity"), at("expected_final")];
  const alcohol = alcoholPiece(scale, original.fitted);
  const density = piece("CONVERT", "value", { from: scale, to: "KGM3" }, original.fitted, 1e-3);
  const [made, inTheEnd] = [alcohol.of(before, now), alcohol.of(before, end)];
  const perLitre = CO2_PER_ALCOHOL / (isInVolumes(call) ? GRAMS_PER_VOLUME : 1);
  const wort = combined(constant(100), "+", combined(constant(LOST_PER_ALCOHOL), "*", inTheEnd));
  const share = combined(combined(inTheEnd, "-", made), "/", wort);
  const known: Branch = {
    result: combined(combined(constant(perLitre), "*", density.of(now)), "*", share),
    conditions: [atLeast(now, end), ...alcohol.holds(before, now), ...alcohol.holds(before, end)],
  };
  const others = inputs.filter((each) => each !== original);
  const unknown = fitted(
    { ...call, constants: { ...call.constants, original: undefined } },
    others,
    latentRecipe(call),
  );
  return {
    inputs,
    branches: [{ ...unknown, when: leftOut(input(inputs.indexOf(original))) }, known],
    tolerance,
    unit,
  };
}
