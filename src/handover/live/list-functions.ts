import { massRange, volumeRange } from "../../core/brewhouse/amounts.js";
import { CLOSE, isVolume, unitsOf, volumeInput, yieldPiece, type Balance } from "./balance.js";
import {
  above,
  atLeast,
  combined,
  constant,
  differsFrom,
  summed,
  type Expression,
} from "../fit/expression.js";
import { amountsAreNumbers, linesWithin } from "./list-conditions.js";
import type { FoldedCall, Input } from "./live-function.js";
import { wortInput, wortScaleLive } from "./wort-scale.js";

/** The cell function refuses more. */
const MAX_EFFICIENCY = 105;

/** Balances over lists of cells. */
export const listFunctions: Readonly<Record<string, Balance>> = {
  BLEND: {
    inputs: (call) => [
      { ...volumeInput, parameter: "volumes", isList: true },
      { ...wortInput(call, "gravities"), whenEmpty: "refused", isList: true },
    ],
    build: (call, at) => {
      const [volumes, given] = [at("volumes"), at("gravities")];
      const { read, mass: massIn, density, back, interval, tolerance, unit } = wortScaleLive(call);
      const [gravities, mass] = [read(given), massIn()];
      const sum = (each: Expression): Expression => summed(volumes, each);
      const extract = combined(
        combined(sum(mass.of(gravities)), "*", constant(100_000)),
        "/",
        sum(density.of(gravities)),
      );
      const conditions = [
        amountsAreNumbers(volumes, volumeRange),
        amountsAreNumbers(given, { min: Math.min(0, interval.min), max: Infinity }),
        linesWithin(volumes, differsFrom(given, constant(0)), given),
        ...mass.holds(gravities).map((holds) => linesWithin(volumes, holds, given)),
        ...back.holds(extract),
      ];
      return { tolerance, unit, branches: [{ result: back.of(extract), conditions }] };
    },
  },
  "EXTRACT.POTENTIAL": {
    inputs: listInputs,
    build: ({ constants }, at) => {
      const { sum, conditions } = potential(constants, at);
      return { ...CLOSE, branches: [{ result: sum, conditions }] };
    },
  },
  EFFICIENCY: {
    inputs: (call) => [volumeInput, wortInput(call, "gravity"), ...listInputs()],
    build: (call, at) => {
      const { sum, conditions } = potential(call.constants, at);
      const [wort, units] = [wortScaleLive(call), unitsOf(call)];
      const mass = wort.mass(units.volume, units.mass);
      const gravity = wort.read(at("gravity"));
      const found = combined(combined(constant(100), "*", at("volume")), "*", mass.of(gravity));
      const result = combined(found, "/", sum);
      const possible = atLeast(combined(constant(MAX_EFFICIENCY), "*", sum), found);
      return {
        tolerance: 0.05,
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
    { parameter: "amounts", whenEmpty: "blank-or-0", interval: { min: 1, max: 100 }, isList: true },
    { parameter: "yields", whenEmpty: "refused", interval: { min: 1, max: 100 }, isList: true },
  ];
}

/** Sum of amount × yield, and the conditions on the lists. */
function potential(constants: FoldedCall["constants"], at: (parameter: string) => Expression) {
  const [amounts, yields] = [at("amounts"), at("yields")];
  const share = yieldPiece(constants["yield_unit"]);
  const conditions = [
    amountsAreNumbers(amounts, massRange),
    linesWithin(amounts, above(yields, constant(0)), yields),
    ...share.holds(yields).map((holds) => linesWithin(amounts, holds, yields)),
  ];
  return { sum: summed(amounts, share.of(yields)), conditions };
}
