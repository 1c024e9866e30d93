import { massRange, volumeRange } from "../core/amounts.js";
import { CLOSE, gravityInput, isVolume, massPiece, volume, yieldPiece, type Balance } from "./balance.js";
import { above, atLeast, combined, constant, summed, writtenGravity, type Expression } from "./expression.js";
import { amountsAreNumbers, linesWithin } from "./list-conditions.js";
import type { FoldedCall, Input } from "./live-function.js";
import { densityPiece, gravityPiece } from "./pieces.js";

/** Beyond this the cell function refuses. */
const MOST_EFFICIENCY = 105;

/** Balances over lists of cells. */
export const listFunctions: Readonly<Record<string, Balance>> = {
  BLEND: {
    inputs: [
      { ...volume, parameter: "volumes", isList: true },
      { ...gravityInput("gravities"), isList: true },
    ],
    build: (_, at) => {
      const [volumes, given] = [at("volumes"), at("gravities")];
      const gravities = writtenGravity(given);
      const [mass, density, back] = [massPiece(), densityPiece(), gravityPiece()];
      const sum = (each: Expression): Expression => summed([volumes, given], each);
      const extract = combined(
        combined(sum(mass.of(gravities)), "*", constant(100_000)),
        "/",
        sum(density.of(gravities)),
      );
      const conditions = [
        amountsAreNumbers(volumes, volumeRange),
        amountsAreNumbers(given, { min: 0, max: Infinity }),
        ...mass.holds(gravities).map((holds) => linesWithin([volumes, given], holds)),
        ...back.holds(extract),
      ];
      return { bar: 0.000_02, unit: "SG", branches: [{ result: back.of(extract), conditions }] };
    },
  },
  "EXTRACT.POTENTIAL": {
    inputs: listInputs(),
    build: ({ constants }, at) => {
      const { sum, conditions } = potential(constants, at);
      return { ...CLOSE, branches: [{ result: sum, conditions }] };
    },
  },
  EFFICIENCY: {
    inputs: [volume, gravityInput("gravity"), ...listInputs()],
    build: ({ constants }, at) => {
      const { sum, conditions } = potential(constants, at);
      const mass = massPiece(constants["volume_unit"], constants["mass_unit"]);
      const gravity = writtenGravity(at("gravity"));
      const found = combined(combined(constant(100), "*", at("volume")), "*", mass.of(gravity));
      const result = combined(found, "/", sum);
      const possible = atLeast(combined(constant(MOST_EFFICIENCY), "*", sum), found);
      return {
        bar: 0.05,
        unit: "% of efficiency",
        branches: [
          {
            result,
            conditions: [...isVolume(at("volume")), ...mass.holds(gravity), ...conditions, possible],
          },
        ],
      };
    },
  },
};

function listInputs(): readonly Input[] {
  return [
    { parameter: "amounts", whenEmpty: "blank-or-0", extent: { min: 1, max: 100 }, isList: true },
    { parameter: "yields", whenEmpty: "refused", extent: { min: 1, max: 100 }, isList: true },
  ];
}

/** Sum of amount × yield, and what must hold of the lists. */
function potential(constants: FoldedCall["constants"], at: (parameter: string) => Expression) {
  const [amounts, yields] = [at("amounts"), at("yields")];
  const share = yieldPiece(constants["yield_unit"]);
  const conditions = [
    amountsAreNumbers(amounts, massRange),
    linesWithin([amounts], above(yields, constant(0)), yields),
    ...share.holds(yields).map((holds) => linesWithin([amounts], holds, yields)),
  ];
  return { sum: summed([amounts], share.of(yields)), conditions };
}
