import type { InstrumentSet } from "../instruments/set.js";
import type { Spotted } from "./finding.js";
import type { SeenArgument, SeenCall } from "./own-calls-seen.js";
import { instrumentOf } from "./readings.js";

// What decides is what can be: nobody reads a glass in wort of 50 °C and more who wants to keep the glass, and such a number is
// a cellar's or a room's in °F. Wort and beer freeze at about −2 °C, so what is read below 32 °F was hardly liquid, and such a
// number is a cellar's or a room's in °C. Hot wort in a kettle is hot, so there only what is beyond boiling looks wrong.
const HOT_FOR_AN_INSTRUMENT = 50; // °C
const BOILING = 105; // °C, of strong wort
const COLDEST_AIR = 120; // °F: what is hotter still is no room either
const FREEZING = 32; // °F

/** Temperatures that look as if they were in the other unit. */
export function otherUnit(call: SeenCall, set: InstrumentSet): Spotted[] {
  return call.args
    .filter(({ parameter }) => /^(original_|final_)?temperatures?$/.test(parameter.name))
    .flatMap((argument) => argument.cells.flatMap((cell) => spotted(call, argument, cell, set)));
}

function spotted(
  call: SeenCall,
  argument: SeenArgument,
  cell: SeenArgument["cells"][number],
  set: InstrumentSet,
): Spotted[] {
  const { value } = cell;
  if (typeof value !== "number") return [];
  const of = (kind: "fahrenheit-like" | "celsius-like"): Spotted[] => [
    { kind, at: cell, about: argument.parameter.name, value: String(value) },
  ];
  if (call.spec.name === "VOLUME.COOLED")
    return value > BOILING && value <= 220 && isCelsius(call) ? of("fahrenheit-like") : [];
  const profile = instrumentOf(call, argument, cell, set);
  // It takes no notice of what stands there.
  if (profile?.kind === "refractometer" && profile.compensates) return [];
  if (profile?.kind === "refractometer" || profile?.kind === "hydrometer" || !profile) {
    if (profile?.temperatureUnit === "F")
      return value !== 0 && value > -5 && value < FREEZING ? of("celsius-like") : [];
    return value >= HOT_FOR_AN_INSTRUMENT && value <= COLDEST_AIR ? of("fahrenheit-like") : [];
  }
  return [];
}

const isCelsius = ({ args }: SeenCall): boolean => {
  const unit = args.find(({ parameter }) => parameter.name === "unit");
  const said = unit?.written ?? unit?.cells[0]?.value;
  return typeof said !== "string" || said.trim().toUpperCase() !== "F";
};
