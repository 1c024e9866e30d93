import { writtenSg } from "../core/liquid/scales.js";
import { nameInCell } from "../formulas/named-instruments.js";
import { findInstrument } from "../instruments/find.js";
import type { Profile } from "../instruments/schema.js";
import type { InstrumentSet } from "../instruments/set.js";
import type { Spotted } from "./finding.js";
import { argumentNamed, beside, type SeenArgument, type SeenCall, type SeenCell } from "./own-calls-seen.js";

/** Readings and temperatures, with the arguments that may name their instrument; the first one present counts. */
const takenWith: Readonly<Record<string, readonly string[]>> = {
  reading: ["instrument"],
  readings: ["instrument"],
  temperature: ["instrument"],
  original_readings: ["instrument"],
  original_temperatures: ["instrument"],
  final_readings: ["final_instrument", "instrument"],
  final_temperatures: ["final_instrument", "instrument"],
  refractometer_reading: ["instrument"],
};

/** The instrument for a cell of an argument; undefined if none is named. */
export function instrumentOf(
  call: SeenCall,
  argument: SeenArgument,
  cell: SeenCell,
  set: InstrumentSet,
): Profile | "unknown" | undefined {
  for (const name of takenWith[argument.parameter.name] ?? []) {
    const [said] = nameInCell(beside(argumentNamed(call, name), cell, argument));
    if (said !== undefined) return findInstrument(set, said) ?? "unknown";
  }
  return undefined;
}

/** A profile may state only one end. */
const graduation = (lowest: number | undefined, highest: number | undefined): string =>
  lowest === undefined
    ? `up to ${highest}`
    : highest === undefined
      ? `from ${lowest} up`
      : `${lowest} to ${highest}`;

/** Readings beyond the graduations of their instrument. */
export function offScale(call: SeenCall, set: InstrumentSet): Spotted[] {
  return call.args
    .filter(({ parameter }) => /reading/.test(parameter.name))
    .flatMap((argument) =>
      argument.cells.flatMap((cell): Spotted[] => {
        const profile = instrumentOf(call, argument, cell, set);
        if (typeof cell.value !== "number" || cell.value === 0) return [];
        if (profile === undefined || profile === "unknown" || profile.kind !== "hydrometer") return [];
        const { name, scale, lowest, highest } = profile;
        const reading = scale === "SG" ? writtenSg(cell.value) : cell.value;
        if (reading >= (lowest ?? -Infinity) && reading <= (highest ?? Infinity)) return [];
        const about = `"${name}", ${graduation(lowest, highest)}`;
        return [{ kind: "off-scale", at: cell, about, value: String(cell.value) }];
      }),
    );
}
