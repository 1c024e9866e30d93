import type { Reading } from "../../core/log/readings-log.js";
import { scaleMarks } from "../../core/instrument/hydrometer.js";
import { pointsOfExtract, pointsOfGravity } from "../../core/liquid/points.js";
import { checkRange } from "../../core/refusal.js";
import { readNumber, readsZero, type Plain } from "../contract/argument.js";
import { at, commonShape } from "../contract/broadcast.js";
import {
  cellContent,
  type CellContent,
  CellError,
  type RawCells,
  type Shape,
} from "../contract/cell-value.js";
import { inCell } from "../contract/define.js";
import { readSg, type GravityScale } from "../arguments/gravity-argument.js";
import { FIRST_DATE, LAST_DATE, parseIsoTime, type LogTime } from "../contract/log-time.js";
import {
  dayZero,
  inRow,
  notNumber,
  notTime,
  passedOn,
  timeOutside,
  zonesMixed,
} from "../contract/messages.js";

/** A fermentation log as read from cells, row by row. */
export interface LogCells {
  readonly shape: Shape;
  /** A reading; undefined for a row without a time or a gravity; or the reason why the row cannot be read. */
  readonly rows: readonly (Reading | CellError | undefined)[];
  /** Offset from UTC of the log's times, in days; undefined if its times do not state one. */
  readonly zone: number | undefined;
}

/** A date-time of the spreadsheet or in text. @throws CellError for anything else */
export function readTime(content: Plain, label: string): LogTime | undefined {
  if (content === undefined || content === 0) return undefined;
  if (typeof content === "boolean") throw new CellError("#VALUE!", notNumber(label, content));
  if (typeof content === "number") {
    if (!(content > 0 && content < LAST_DATE)) throw new CellError("#VALUE!", timeOutside(label, content));
    return { days: content, zone: undefined };
  }
  const time = parseIsoTime(content);
  if (!time) throw new CellError("#VALUE!", notTime(label, content));
  return time;
}

/** Days in the time zone of the log. @throws CellError if only one of the two states a zone */
export function inZone({ days, zone }: LogTime, ofLog: number | undefined): number {
  if ((zone === undefined) !== (ofLog === undefined)) throw new CellError("#VALUE!", zonesMixed);
  return days + (ofLog ?? 0);
}

/** A logged gravity in points. Spikes may lie beyond any wort, but not beyond any scale. */
function readPoints(content: Plain, scale: GravityScale, time: CellContent): number | undefined {
  const value = readNumber(content, "gravity");
  if (value === undefined || (value === 0 && !readsZero(scale, time))) return undefined;
  if (scale === "SG") return pointsOfGravity(readSg(value, "gravity", scaleMarks.SG));
  checkRange({ ...scaleMarks.P, of: "gravity" }, value);
  return pointsOfExtract(value);
}

interface Line {
  /** Missing if it is 0, which may be a time or a blank; the other rows decide. */
  readonly time: LogTime | undefined;
  readonly gravity: number;
}

const isBlank = (content: CellContent): boolean => content === undefined || content === 0;

/** @returns undefined for a row to skip. @throws CellError for one that cannot be read */
function readLine(time: CellContent, gravity: CellContent, scale: GravityScale): Line | undefined {
  if (time instanceof CellError) throw new CellError(time.code, passedOn("time"));
  if (gravity instanceof CellError) throw new CellError(gravity.code, passedOn("gravity"));
  if (time === undefined || (isBlank(time) && isBlank(gravity))) return undefined;
  const points = readPoints(gravity, scale, time);
  return points === undefined ? undefined : { time: readTime(time, "time"), gravity: points };
}

/**
 * Reads a log from two ranges of the same shape.
 *
 * @throws CellError for ranges that do not match, and if only some of the times state their zone
 */
export function readLog(times: RawCells, gravities: RawCells, scale: GravityScale): LogCells {
  const shape = commonShape([times, gravities]);
  const lines = Array.from({ length: shape.rows * shape.columns }, (_, i) => {
    const [row, column] = [Math.floor(i / shape.columns), i % shape.columns];
    const cell = (matrix: RawCells): CellContent => cellContent(at(matrix, row, column));
    return inCell(() => readLine(cell(times), cell(gravities), scale));
  });
  const read = lines.flatMap((line) =>
    line && !(line instanceof CellError) && line.time ? [line.time] : [],
  );
  const zone = read[0]?.zone;
  const countsDays = read.length > 0 && read.every(({ days }) => days < FIRST_DATE);
  const rows = lines.map((line): Reading | CellError | undefined => {
    if (line === undefined || line instanceof CellError) return line;
    if (line.time) return { time: inZone(line.time, zone), gravity: line.gravity };
    return countsDays ? new CellError("#VALUE!", dayZero("time")) : undefined;
  });
  return { shape, rows, zone };
}

/** The readings of a log. @throws CellError for the first unreadable row, naming it */
export function readingsOf({ rows }: LogCells): Reading[] {
  return rows.flatMap((row, i) => {
    if (row instanceof CellError) throw new CellError(row.code, inRow(i + 1, row.message));
    return row === undefined ? [] : [row];
  });
}
