import { gravityRange } from "../core/gravity.js";
import { CLOSE, gravityInput, isVolume, massPiece, volume, yieldPiece, type Balance } from "./balance.js";
import {
  above,
  atLeast,
  combined,
  constant,
  input,
  leftOut,
  writtenGravity,
  type Condition,
  type Expression,
} from "./expression.js";
import { listFunctions } from "./list-functions.js";
import type { Branch, FoldedCall, LiveFunction } from "./live-function.js";
import { densityPiece, extractPiece, numberOf, piece, type Piece } from "./pieces.js";

// Balances of mass are products and quotients of a few numbers, put together here as the cell functions document them; what
// wort is like comes from the cell functions as polynomials. What is put together is measured against the cell function.

/** Freezing to boiling in either unit. */
const degrees = { min: 0, max: 212 };

const functions: Readonly<Record<string, Balance>> = {
  "EXTRACT.MASS": {
    inputs: [volume, gravityInput("gravity")],
    build: ({ constants }, at) => {
      const mass = massPiece(constants["volume_unit"], constants["mass_unit"]);
      const gravity = writtenGravity(at("gravity"));
      const result = combined(at("volume"), "*", mass.of(gravity));
      return {
        ...CLOSE,
        branches: [{ result, conditions: [...isVolume(at("volume")), ...mass.holds(gravity)] }],
      };
    },
  },
  "VOLUME.COOLED": {
    inputs: [
      volume,
      { parameter: "temperature", whenEmpty: "refused", extent: degrees },
      { parameter: "to", whenEmpty: "left-out", extent: degrees },
    ],
    build: ({ constants, inputs }, at) => {
      const others = { volume: 1, to: constants["to"], unit: constants["unit"] };
      const ratio = piece("VOLUME.COOLED", "temperature", others, degrees, 1e-6);
      const result = combined(at("volume"), "*", ratio.of(at("temperature")));
      const conditions = [...isVolume(at("volume")), ...ratio.holds(at("temperature"))];
      const usual: Branch = { result, conditions };
      if (!inputs.includes("to")) return { ...CLOSE, branches: [usual] };
      // Both ratios are to the temperature that counts where none is given.
      const cooled = combined(result, "/", ratio.of(at("to")));
      const given = { result: cooled, conditions: [...conditions, ...ratio.holds(at("to"))] };
      return { ...CLOSE, branches: [{ ...usual, when: leftOut(at("to")) }, given] };
    },
  },
  "BOIL.GRAVITY": {
    inputs: [volume, gravityInput("gravity"), { ...volume, parameter: "end_volume" }],
    build: (_, at) => {
      const mass = massPiece();
      const gravity = writtenGravity(at("gravity"));
      const perLitre = combined(combined(at("volume"), "*", mass.of(gravity)), "/", at("end_volume"));
      // The inverse of the extract in a litre, found by boiling thin wort down to one.
      const thin = numberOf("EXTRACT.MASS", 1, THIN);
      const strong = numberOf("EXTRACT.MASS", 1, gravityRange.max);
      const boiled = piece(
        "BOIL.GRAVITY",
        "volume",
        { gravity: THIN, end_volume: 1 },
        { min: 1, max: strong / thin },
        2e-6,
      );
      const litres = combined(perLitre, "/", constant(thin));
      return {
        bar: 0.000_02,
        unit: "SG",
        branches: [
          {
            result: boiled.of(litres),
            conditions: [
              ...isVolume(at("end_volume")),
              ...isVolume(at("volume")),
              atLeast(at("volume"), at("end_volume")),
              ...mass.holds(gravity),
              ...boiled.holds(litres),
            ],
          },
        ],
      };
    },
  },
  "BOIL.VOLUME": {
    inputs: [volume, gravityInput("gravity"), gravityInput("target")],
    build: (_, at) => {
      const mass = massPiece();
      const [gravity, target] = [writtenGravity(at("gravity")), writtenGravity(at("target"))];
      const result = combined(combined(at("volume"), "*", mass.of(gravity)), "/", mass.of(target));
      const conditions = [
        ...isVolume(at("volume")),
        ...mass.holds(gravity),
        atLeast(target, gravity),
        ...isWort(target, mass),
      ];
      return { ...CLOSE, branches: [{ result, conditions }] };
    },
  },
  DILUTE: {
    inputs: [volume, gravityInput("gravity"), gravityInput("target")],
    build: (_, at) => {
      const [extract, density] = [extractPiece(), densityPiece()];
      const [gravity, target] = [writtenGravity(at("gravity")), writtenGravity(at("target"))];
      const share = combined(combined(extract.of(gravity), "-", extract.of(target)), "/", extract.of(target));
      const heavier = combined(density.of(gravity), "/", constant(numberOf("CONVERT", 1, "SG", "KGM3")));
      const conditions = [
        ...isVolume(at("volume")),
        ...massPiece().holds(gravity),
        atLeast(gravity, target),
        ...isWort(target, massPiece()),
      ];
      return {
        ...CLOSE,
        branches: [{ result: combined(combined(at("volume"), "*", heavier), "*", share), conditions }],
      };
    },
  },
  FORTIFY: {
    inputs: [
      volume,
      gravityInput("gravity"),
      gravityInput("target"),
      { parameter: "yield", whenEmpty: "left-out", extent: { min: 1, max: 100 } },
    ],
    build: ({ constants, inputs }, at) => {
      const [extract, density] = [extractPiece(), densityPiece()];
      const [gravity, target] = [writtenGravity(at("gravity")), writtenGravity(at("target"))];
      const share = yieldPiece(constants["yield_unit"]);
      const units = [constants["volume_unit"], constants["mass_unit"]];
      const unit = numberOf("EXTRACT.MASS", 1, 1.05, ...units) / numberOf("EXTRACT.MASS", 1, 1.05);
      const wort = combined(combined(at("volume"), "*", density.of(gravity)), "*", constant(unit / 1000));
      const missing = combined(extract.of(target), "-", extract.of(gravity));
      const added = (strength: Expression, more: readonly Condition[]): Branch => {
        const room = combined(strength, "-", extract.of(target));
        const conditions = [
          ...isVolume(at("volume")),
          ...massPiece().holds(gravity),
          atLeast(target, gravity),
          ...isWort(target, massPiece()),
          ...more,
          above(room, constant(0)),
        ];
        return { result: combined(combined(wort, "*", missing), "/", room), conditions };
      };
      const sugar = added(constant(100), []);
      const given = at("yield");
      if (inputs.includes("yield")) {
        const own = added(combined(constant(100), "*", share.of(given)), share.holds(given));
        return { ...CLOSE, branches: [{ ...sugar, when: leftOut(given) }, own] };
      }
      const isGiven = Number(constants["yield"] ?? 0) !== 0;
      return { ...CLOSE, branches: [isGiven ? added(constant(100 * share.of(given).at([])), []) : sugar] };
    },
  },
  ...listFunctions,
};

/** Wort thin enough that boiling it down reaches every other; it is stronger than what counts as an empty cell. */
const THIN = 1.000_01;

/** A target is no water. */
const isWort = (target: Expression, mass: Piece): readonly Condition[] => [
  above(target, constant(1)),
  ...mass.holds(target),
];

/** A call of a balance as a formula; undefined for a function that is none of these. */
export function balanceFunction(call: FoldedCall): LiveFunction | undefined {
  const balance = functions[call.name];
  if (!balance) return undefined;
  const inputs = balance.inputs.filter(({ parameter }) => call.inputs.includes(parameter));
  const at = (parameter: string): Expression => {
    const i = inputs.findIndex((each) => each.parameter === parameter);
    return i < 0 ? constant(Number(call.constants[parameter])) : input(i);
  };
  return { ...balance.build(call, at), inputs };
}
