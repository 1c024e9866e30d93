import { courseOf } from "../core/log/fermentation-forecast.js";
import { stagesOf } from "../core/log/fermentation-stages.js";
import { gravityOfPoints } from "../core/liquid/points.js";
import { at } from "./contract/broadcast.js";
import { matrix } from "./contract/call.js";
import { specNamed } from "./catalogue.js";
import { cellContent, CellError } from "./contract/cell-value.js";
import { inCell } from "./contract/define.js";
import { logScale, readingLog, type ReadLog } from "./cells/log-functions.js";

/** A time, in days as the spreadsheet or the log counts them, and a gravity, SG. */
export interface CoursePoint {
  readonly time: number;
  readonly gravity: number;
}

/** A fermentation log for a chart. Gravities are SG. */
export interface Course {
  /** In order of time. */
  readonly readings: readonly (CoursePoint & {
    /** The first row of the log with this time, from 0. */
    readonly row: number;
    readonly smooth: number;
    /** Why it was excluded. */
    readonly setAside: "spike" | "tilt" | undefined;
  })[];
  readonly stages: readonly (CoursePoint & { readonly name: string })[];
  /** Forecast; empty if the log cannot carry one. */
  readonly ahead: readonly CoursePoint[];
}

/**
 * The log that a fermentation function is called with.
 *
 * @param name without its namespace
 * @param args cells, ranges as rows of cells, or undefined for an omitted argument
 * @returns undefined for other functions, and for a log that is unreadable or empty
 */
export function course(name: string, args: readonly unknown[]): Course | undefined {
  const { parameters, topic } = specNamed(name);
  if (topic !== "Fermentation" || parameters[0]?.name !== "times") return undefined;
  const [times, gravities] = [matrix(args[0]), matrix(args[1])];
  const scales = matrix(args[parameters.findIndex((parameter) => parameter.name === "scale")]);
  const read = inCell(() => {
    const content = cellContent(at(scales, 0, 0));
    return content instanceof CellError ? undefined : readingLog([times, gravities], logScale.read(content));
  });
  return read === undefined || read instanceof CellError ? undefined : courseFrom(read);
}

function courseFrom({ cells, fermentation: log }: ReadLog): Course {
  const rowAt = new Map<number, number>();
  for (const [row, reading] of cells.rows.entries())
    if (reading && !(reading instanceof CellError) && !rowAt.has(reading.time)) rowAt.set(reading.time, row);
  const ahead = inCell(() => courseOf(log));
  const point = ({ time, gravity }: CoursePoint): CoursePoint => ({
    time,
    gravity: gravityOfPoints(gravity),
  });
  return {
    readings: log.readings.map(({ setAside, smooth, ...reading }) => ({
      ...point(reading),
      row: rowAt.get(reading.time) ?? 0,
      smooth: gravityOfPoints(smooth),
      setAside,
    })),
    stages: Object.entries(stagesOf(log)).flatMap(([name, stage]: [string, CoursePoint | undefined]) =>
      stage ? [{ name, ...point(stage) }] : [],
    ),
    ahead: ahead instanceof CellError ? [] : ahead.map(point),
  };
}
