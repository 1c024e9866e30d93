import { fermentation, type Fermentation } from "../../core/log/fermentation.js";
import { extractOfGravity } from "../../core/liquid/gravity.js";
import { gravityOfPoints } from "../../core/liquid/points.js";
import { step, type Listener } from "../../core/steps.js";
import { readCell, type ArgumentSpec } from "../contract/argument.js";
import { at } from "../contract/broadcast.js";
import { cellContent, CellError, type RawCells, type Result } from "../contract/cell-value.js";
import { elementwise, inCell } from "../contract/define.js";
import { readingsOf, readLog, type LogCells } from "./fermentation-log.js";
import { columnOf, type FunctionSpec, type Parameter, type Words } from "../contract/function-spec.js";
import { scale, type GravityScale } from "../arguments/gravity-argument.js";
import { needsOneScale } from "../contract/messages.js";

const logColumns: readonly Parameter[] = [
  columnOf(
    "times",
    "When each reading was taken: date-times, or text such as 2026-03-01T18:30, with or without a zone. In any order; empty rows are passed over.",
  ),
  columnOf("gravities", "The gravities: SG (1.046 or 1046), or °P (see scale). As logged: spikes may stay."),
];

const LOG = ["times", "gravities"];

export const logScale = scale("How the gravities are written");

/** A cleaned log with at least one reading. */
export interface ReadLog {
  readonly cells: LogCells;
  readonly fermentation: Fermentation;
}

/** @returns undefined for a log without readings. @throws CellError for rows that cannot be read */
export function readingLog(
  [times = [[]], gravities = [[]]]: readonly RawCells[],
  scale: GravityScale,
): ReadLog | undefined {
  const cells = readLog(times, gravities, scale);
  const readings = readingsOf(cells);
  return readings.length === 0 ? undefined : { cells, fermentation: fermentation(readings) };
}

/** A gravity as shown in a cell. */
export function writtenGravity(points: number, scale: GravityScale): number {
  const gravity = gravityOfPoints(points);
  return scale === "SG" ? gravity : extractOfGravity(gravity);
}

type Arguments = Readonly<Record<string, ArgumentSpec<unknown>>> & {
  readonly scale: ArgumentSpec<GravityScale>;
};
type Values<A> = { readonly [K in keyof A]: A[K] extends ArgumentSpec<infer T> ? T : never };

/**
 * A function that takes a log and, cell by cell, further arguments.
 *
 * @param prepare computed once per log
 */
export function ofLog<A extends Arguments, P>(
  words: Words,
  args: A,
  prepare: (log: ReadLog) => P,
  each: (values: Values<A>, prepared: P, to?: Listener) => Result,
): FunctionSpec {
  const inCells = ([times = [], gravities = [], ...asked]: readonly RawCells[], to?: Listener) => {
    const logs = new Map<GravityScale, { of: P } | CellError | undefined>();
    const preparedFor = (scale: GravityScale): { of: P } | undefined => {
      if (!logs.has(scale))
        logs.set(
          scale,
          inCell(() => {
            const log = readingLog([times, gravities], scale);
            if (log) tellLog(log.fermentation, to);
            return log && { of: prepare(log) };
          }),
        );
      const found = logs.get(scale);
      if (found instanceof CellError) throw found;
      return found;
    };
    const ofCells = elementwise(words, args, (values) => {
      const prepared = preparedFor((values as { scale: GravityScale }).scale);
      return prepared ? each(values, prepared.of, to) : "";
    });
    return { asked, ofCells };
  };
  return {
    ...words,
    parameters: [...logColumns, ...elementwise(words, args, () => "").parameters],
    lists: LOG,
    calculate: (given) => {
      const { asked, ofCells } = inCells(given);
      return ofCells.calculate(asked);
    },
    tell: (given, row, column, to) => {
      const { asked, ofCells } = inCells(given, to);
      return ofCells.tell?.(asked, row, column, to) ?? "";
    },
  };
}

/** Reports how a log was cleaned. */
function tellLog({ readings, parts, shifts, scatter }: Fermentation, to: Listener | undefined): void {
  if (!to) return;
  const count = (why: "spike" | "tilt"): number => readings.filter(({ setAside }) => setAside === why).length;
  step(to, "readings of the log", readings.length, "");
  step(to, "scatter of one reading, one standard deviation", scatter, "points", MAD);
  step(to, "set aside as spikes", count("spike"), "", HAMPEL);
  step(to, "set aside as tilted", count("tilt"), "", OWN);
  if (shifts.length > 0) step(to, "tilts that stayed, taken off", shifts.length, "", OWN);
  if (parts.length > 1) step(to, "additions of sugar", parts.length - 1, "", OWN);
}

const MAD = "lower quartile of what stands off the line between neighbours";
const HAMPEL = "Hampel's filter, and the longest falling run";
const OWN = "our own rule, see the help page";

/** A function that takes a log and a scale, and spills. */
export function overLog(
  words: Words,
  spill: (log: readonly RawCells[], scale: GravityScale) => Result[][],
): FunctionSpec {
  return {
    ...words,
    parameters: [...logColumns, ...elementwise(words, { scale: logScale }, () => "").parameters],
    lists: LOG,
    calculate: ([times = [], gravities = [], scales = [[]]]) => {
      if (scales.length > 1 || (scales[0]?.length ?? 0) > 1) throw new CellError("#VALUE!", needsOneScale);
      return spill([times, gravities], readCell(logScale, cellContent(at(scales, 0, 0))));
    },
  };
}
