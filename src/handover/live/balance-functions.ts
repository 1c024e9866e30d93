import { CLOSE, isVolume, unitsOf, volumeInput, yieldPiece, type Balance } from "./balance.js";
import {
  above,
  atLeast,
  combined,
  constant,
  input,
  isEmpty,
  leftOut,
  type InputCondition,
  type Expression,
} from "../fit/expression.js";
import { listFunctions } from "./list-functions.js";
import type { Branch, FoldedCall, LiveFunction } from "./live-function.js";
import { numberFrom, piece } from "./pieces.js";
import { wortInput, wortScaleLive } from "./wort-scale.js";

// Mass balances are products and quotients of a few numbers, composed here as the cell functions document them;
// properties of wort come from the cell functions as polynomials. The composition is measured against the cell
// function.

/** Freezing to boiling in either unit. */
const degrees = { min: 0, max: 212 };

const functions: Readonly<Record<string, Balance>> = {
  "EXTRACT.MASS": {
    inputs: (call) => [volumeInput, wortInput(call, "gravity")],
    build: (call, at) => {
      const wort = wortScaleLive(call);
      const mass = wort.mass(call.constants["volume_unit"], call.constants["mass_unit"]);
      const gravity = wort.read(at("gravity"));
      const result = combined(at("volume"), "*", mass.of(gravity));
      return {
        ...CLOSE,
        branches: [{ result, conditions: [...isVolume(at("volume")), ...mass.holds(gravity)] }],
      };
    },
  },
  "VOLUME.COOLED": {
    inputs: () => [
      volumeInput,
      { parameter: "temperature", whenEmpty: "refused", interval: degrees },
      { parameter: "to", whenEmpty: "left-out", interval: degrees },
    ],
    build: ({ constants, inputs }, at) => {
      const others = { volume: 1, to: constants["to"], unit: constants["unit"] };
      const ratio = piece("VOLUME.COOLED", "temperature", others, degrees, 1e-6);
      const result = combined(at("volume"), "*", ratio.of(at("temperature")));
      const conditions = [...isVolume(at("volume")), ...ratio.holds(at("temperature"))];
      const usual: Branch = { result, conditions };
      if (!inputs.includes("to")) return { ...CLOSE, branches: [usual] };
      // Both ratios refer to the default temperature.
      const cooled = combined(result, "/", ratio.of(at("to")));
      const given = { result: cooled, conditions: [...conditions, ...ratio.holds(at("to"))] };
      return { ...CLOSE, branches: [{ ...usual, when: leftOut(at("to")) }, given] };
    },
  },
  "BOIL.GRAVITY": {
    inputs: (call) => [volumeInput, wortInput(call, "gravity"), { ...volumeInput, parameter: "end_volume" }],
    build: (call, at) => {
      const wort = wortScaleLive(call);
      const mass = wort.mass();
      const gravity = wort.read(at("gravity"));
      const perLitre = combined(combined(at("volume"), "*", mass.of(gravity)), "/", at("end_volume"));
      // The inverse of the extract in a litre, found by boiling thin wort down to one.
      const thinGravity = wort.name === "P" ? numberFrom("CONVERT", THIN, "SG", "P") : THIN;
      const thin = numberFrom("EXTRACT.MASS", 1, THIN);
      const strong = numberFrom("EXTRACT.MASS", 1, wort.interval.max, "", "", wort.name);
      const boiled = piece(
        "BOIL.GRAVITY",
        "volume",
        { gravity: thinGravity, end_volume: 1, scale: wort.name },
        { min: 1, max: strong / thin },
        wort.tolerance / 10,
      );
      const litres = combined(perLitre, "/", constant(thin));
      return {
        tolerance: wort.tolerance,
        unit: wort.unit,
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
    inputs: (call) => [volumeInput, wortInput(call, "gravity"), wortInput(call, "target")],
    build: (call, at) => {
      const wort = wortScaleLive(call);
      const mass = wort.mass();
      const [gravity, target] = [wort.read(at("gravity")), wort.read(at("target"))];
      const result = combined(combined(at("volume"), "*", mass.of(gravity)), "/", mass.of(target));
      const conditions = [
        ...isVolume(at("volume")),
        ...mass.holds(gravity),
        atLeast(target, gravity),
        ...wort.isWort(target),
      ];
      return { ...CLOSE, branches: [{ result, conditions }] };
    },
  },
  DILUTE: {
    inputs: (call) => [volumeInput, wortInput(call, "gravity"), wortInput(call, "target")],
    build: (call, at) => {
      const wort = wortScaleLive(call);
      const [gravity, target] = [wort.read(at("gravity")), wort.read(at("target"))];
      const [before, after] = [wort.extract(gravity), wort.extract(target)];
      const share = combined(combined(before, "-", after), "/", after);
      const heavier = combined(
        wort.density.of(gravity),
        "/",
        constant(numberFrom("CONVERT", 1, "SG", "KGM3")),
      );
      const conditions = [
        ...isVolume(at("volume")),
        ...wort.mass().holds(gravity),
        atLeast(gravity, target),
        ...wort.isWort(target),
      ];
      return {
        ...CLOSE,
        branches: [{ result: combined(combined(at("volume"), "*", heavier), "*", share), conditions }],
      };
    },
  },
  FORTIFY: {
    inputs: (call) => [
      volumeInput,
      wortInput(call, "gravity"),
      wortInput(call, "target"),
      { parameter: "yield", whenEmpty: "left-out", interval: { min: 1, max: 100 } },
    ],
    build: (call, at) => {
      const { constants, inputs } = call;
      const wort = wortScaleLive(call);
      const [gravity, target] = [wort.read(at("gravity")), wort.read(at("target"))];
      const share = yieldPiece(constants["yield_unit"]);
      const units = unitsOf(call);
      const unit =
        numberFrom("EXTRACT.MASS", 1, 1.05, units.volume, units.mass) / numberFrom("EXTRACT.MASS", 1, 1.05);
      const weight = combined(
        combined(at("volume"), "*", wort.density.of(gravity)),
        "*",
        constant(unit / 1000),
      );
      const wanted = wort.extract(target);
      const missing = combined(wanted, "-", wort.extract(gravity));
      const added = (strength: Expression, more: readonly InputCondition[]): Branch => {
        const room = combined(strength, "-", wanted);
        const conditions = [
          ...isVolume(at("volume")),
          ...wort.mass().holds(gravity),
          atLeast(target, gravity),
          ...wort.isWort(target),
          ...more,
          above(room, constant(0)),
        ];
        return { result: combined(combined(weight, "*", missing), "/", room), conditions };
      };
      const sugar = added(constant(100), []);
      const given = at("yield");
      if (inputs.includes("yield")) {
        const own = added(combined(constant(100), "*", share.of(given)), share.holds(given));
        return { ...CLOSE, branches: [{ ...sugar, when: isEmpty(given) }, own] };
      }
      const isGiven = String(constants["yield"] ?? "").trim() !== "";
      return { ...CLOSE, branches: [isGiven ? added(constant(100 * share.of(given).at([])), []) : sugar] };
    },
  },
  ...listFunctions,
};

/** Wort so thin that boiling it down can reach any other, but stronger than what counts as an empty cell. */
const THIN = 1.000_01;

/** A call of a balance function as a formula; undefined for other functions. */
export function balanceFunction(call: FoldedCall): LiveFunction | undefined {
  const balance = functions[call.name];
  if (!balance) return undefined;
  const inputs = balance.inputs(call).filter(({ parameter }) => call.inputs.includes(parameter));
  const at = (parameter: string): Expression => {
    const i = inputs.findIndex((each) => each.parameter === parameter);
    return i < 0 ? constant(Number(call.constants[parameter])) : input(i);
  };
  return { ...balance.build(call, at), inputs };
}
