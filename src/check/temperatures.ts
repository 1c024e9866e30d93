import { celsius, type TemperatureUnit } from "../core/liquid/temperature.js";
import { median } from "../core/numeric/robust.js";
import type { InstrumentSet } from "../instruments/set.js";
import type { Spotted } from "./finding.js";
import type { SeenCall, SeenCell } from "./own-calls-seen.js";
import { instrumentOf } from "./readings.js";

// A number alone does not show its unit: 68 may be hot wort in °C or a room in °F. The rules below are common practice,
// no source: what someone experienced would notice. Each is reported as a suspicion, never as a fact.

/** °C: no fermenting or finished beer is that warm. In °F it is a cellar or a room. */
const TOO_WARM_FOR_BEER = { min: 50, max: 104 };
/**
 * °C: if most samples of a column are cooler than this, the others are suspect, provided that they would be as cool in
 * °F.
 */
const COOL = 40;
const AS_THE_OTHERS = 10;
const OTHERS = 3;
/**
 * °F: a whole column within this range is a room, 15 to 25 °C. Kettles scatter more, and nobody puts a glass into hot
 * wort daily.
 */
const ROOM_F = { min: 59, max: 77 };
const WHOLE_COLUMN = 5;
/** °F: wort and beer are frozen below 32. Below −5 it is not a room in °C either. */
const ICE = { above: -5, below: 32 };

/** A temperature in a cell. */
interface Sample {
  readonly cell: SeenCell;
  readonly value: number;
  readonly unit: TemperatureUnit;
  readonly parameter: string;
  readonly isBeer: boolean;
}

type Range = { readonly min: number; readonly max: number };

const within = (value: number, { min, max }: Range): boolean => value >= min && value <= max;

/** Temperatures of samples that look as if they were in the other unit. */
export function otherUnit(calls: readonly SeenCall[], set: InstrumentSet): Spotted[] {
  return columns(calls.flatMap((call) => samples(call, set))).flatMap((column) => [
    ...column.filter((sample) => likeFahrenheit(sample, column)).map(spotted("fahrenheit-like")),
    ...column.filter(likeCelsius).map(spotted("celsius-like")),
  ]);
}

const spotted =
  (kind: Spotted["kind"]) =>
  ({ cell, value, parameter }: Sample): Spotted => ({
    kind,
    at: cell,
    about: parameter,
    value: String(value),
  });

/** Temperatures that affect a reading: an instrument that compensates ignores them. */
function samples(call: SeenCall, set: InstrumentSet): Sample[] {
  const { name } = call.spec;
  // It is meant for hot wort in a kettle, and refuses anything beyond boiling.
  if (name === "VOLUME.COOLED") return [];
  const isRefractometer = name.includes("REFRACTOMETER");
  return call.args
    .filter(({ parameter }) => /^(?:original_|final_)?temperatures?$/.test(parameter.name))
    .flatMap((argument) =>
      argument.cells.flatMap((cell): Sample[] => {
        const profile = instrumentOf(call, argument, cell, set);
        // An unknown instrument may be read in any unit.
        if (profile === "unknown" || profile?.kind === "floating" || typeof cell.value !== "number")
          return [];
        const compensates = profile?.kind === "refractometer" ? profile.compensates : isRefractometer;
        if (compensates) return [];
        const parameter = argument.parameter.name;
        const isBeer = parameter.startsWith("final_") || name === "REFRACTOMETER.BEER";
        return [{ cell, value: cell.value, unit: profile?.temperatureUnit ?? "C", parameter, isBeer }];
      }),
    );
}

/** Samples by column and unit, each cell once, though many formulas may read it. */
function columns(all: readonly Sample[]): Sample[][] {
  const found = new Map<string, Map<number, Sample>>();
  for (const sample of all) {
    const { sheet, row, column } = sample.cell;
    const key = `${sheet},${column},${sample.unit}`;
    const cells = found.get(key) ?? new Map<number, Sample>();
    found.set(key, cells);
    cells.set(row, sample);
  }
  return [...found.values()].map((cells) => [...cells.values()]);
}

function likeFahrenheit(sample: Sample, column: readonly Sample[]): boolean {
  const { value, unit, isBeer } = sample;
  if (unit !== "C" || !within(value, TOO_WARM_FOR_BEER)) return false;
  if (isBeer) return true;
  if (column.length >= WHOLE_COLUMN && column.every((each) => within(each.value, ROOM_F))) return true;
  const cool = column.filter((each) => each.value <= COOL).map((each) => each.value);
  const isException = cool.length >= OTHERS && cool.length * 4 >= (column.length - 1) * 3;
  return isException && Math.abs(celsius(value, "F") - median(cool)) <= AS_THE_OTHERS;
}

const likeCelsius = ({ value, unit }: Sample): boolean =>
  unit === "F" && value !== 0 && value > ICE.above && value < ICE.below;
