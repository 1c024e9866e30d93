import { combined, constant, input, leftOut } from "../fit/expression.js";
import { isVolume } from "./balance.js";
import type { FoldedCall, LiveFunction } from "./live-function.js";
import { fitted, gravityOn, inputsOf, plainInput, type Recipe } from "./quantities.js";

/** Default volume. */
const USUAL = 100; // mL

/** Energy of a constant volume. */
export function energyRecipe(call: FoldedCall): Recipe {
  const { constants } = call;
  const millilitres = Number(constants["millilitres"] ?? USUAL) || USUAL;
  return {
    tolerance: (0.05 * millilitres) / USUAL,
    unit: "kcal",
    numbers: [gravityOn(call, "original"), gravityOn(call, "final", true)],
  };
}

/** For a volume in a cell: energy is proportional to it. */
export function energyOfVolume(call: FoldedCall): LiveFunction {
  const usual = { ...call, constants: { ...call.constants, millilitres: USUAL } };
  const { tolerance, unit, numbers } = energyRecipe(usual);
  const millilitres = plainInput("millilitres", { min: 1, max: USUAL }, "left-out");
  const inputs = inputsOf(call, [...numbers, millilitres]);
  const pair = inputs.filter((each) => each !== millilitres);
  const { result, conditions } = fitted(usual, pair, { tolerance, unit, numbers });
  const volume = input(inputs.indexOf(millilitres));
  const energy = combined(combined(result, "*", volume), "/", constant(USUAL));
  return {
    inputs,
    branches: [
      { result, conditions, when: leftOut(volume) },
      { result: energy, conditions: [...isVolume(volume), ...conditions] },
    ],
    tolerance,
    unit: `kcal in ${USUAL} mL`,
  };
}
