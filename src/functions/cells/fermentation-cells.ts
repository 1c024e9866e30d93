import { reachedBy } from "../../core/log/fermentation-forecast.js";
import { fallOf } from "../../core/log/fermentation-rate.js";
import { stagesOf } from "../../core/log/fermentation-stages.js";
import { isSteady, defaultSteadyCriterion } from "../../core/log/fermentation-steady.js";
import { fermentation, type Fermentation } from "../../core/log/fermentation.js";
import {
  gravityOfPoints,
  pointsOfExtract,
  pointsOfGravity,
  pointsPerPlato,
} from "../../core/liquid/points.js";
import { checkRange, type Range } from "../../core/refusal.js";
import { step } from "../../core/steps.js";
import { optionalNumber } from "../contract/argument.js";
import { CellError, type Result } from "../contract/cell-value.js";
import { inZone, readLog, readTime } from "./fermentation-log.js";
import { finalGravity, readGravity, type GravityScale } from "../arguments/gravity-argument.js";
import { logScale, ofLog, overLog, readingLog, writtenGravity } from "./log-functions.js";
import type { LogTime } from "../contract/log-time.js";
import { notYet } from "../contract/messages.js";

const CLEANED =
  "Spikes are set aside by Hampel's filter (a median over five readings to either side and three scaled median deviations), if readings are at most " +
  "six hours apart. Where the level rises by two points or more, the instrument was tilted or sugar was added: a rise that " +
  "goes at once as it came is a tilt and is set aside; one that goes little by little is sugar, and begins anew; one that " +
  "stays is a tilt and is taken off. Without sugar gravity only falls: of the rest the longest falling run is kept, " +
  "smoothed over ±4 hours, and by isotonic regression never rises. Sugar that is gone by the next reading or two looks like a " +
  "spike. ";

const PRESSURE =
  "It never says that beer is safe to bottle: what stands still may be stuck, and sugar left in a bottle can burst it. Take " +
  "final values with glass, and compare with the gravity that the beer is expected to end at.";

const AS_DATE = "a date-time number (format the cell as date and time)";

export const FERMENT_SMOOTH = overLog(
  {
    name: "FERMENT.SMOOTH",
    topic: "Fermentation",
    question: "What did this log look like without foam, tilts and scatter?",
    summary: "A logged fermentation with spikes, tilts and scatter taken out, row by row.",
    returns: 'The gravity of each row as SG 20/20, or °P if scale is "P"; empty where time or gravity is.',
    examples: [
      {
        formula: "GYLE.FERMENT.SMOOTH(A2:A900,B2:B900)",
        says: "Fills a column beside the log, to plot with it.",
      },
    ],
    method: CLEANED + "At what was set aside it runs straight between its neighbours.",
    caution: PRESSURE,
  },
  ([times = [[]], gravities = [[]]], scale) => {
    const log = readLog(times, gravities, scale);
    const readings = log.rows.flatMap((row) => (row && !(row instanceof CellError) ? [row] : []));
    const smooth = new Map(
      readings.length === 0 ? [] : fermentation(readings).readings.map((each) => [each.time, each.smooth]),
    );
    const results = log.rows.map((row): Result => {
      if (row === undefined || row instanceof CellError) return row ?? "";
      return writtenGravity(smooth.get(row.time) ?? NaN, scale);
    });
    const { rows, columns } = log.shape;
    return Array.from({ length: rows }, (_, r) => results.slice(r * columns, (r + 1) * columns));
  },
);

export const FERMENT_RATE = ofLog(
  {
    name: "FERMENT.RATE",
    topic: "Fermentation",
    question: "How fast is it fermenting?",
    summary: "Points of gravity that a fermentation loses per day.",
    returns: 'Points per day (0.001 SG), or °P per day if scale is "P"; positive when falling.',
    examples: [
      { formula: "GYLE.FERMENT.RATE(A2:A900,B2:B900)", says: "At the last reading." },
      { formula: "GYLE.FERMENT.RATE(A2:A900,B2:B900,D2)", says: "At the date and time in D2." },
    ],
    method:
      CLEANED +
      "The rate is the slope of the least-squares line through the smooth gravities within half a day, or to the next ones " +
      "where these are fewer than three.",
    caution: PRESSURE,
  },
  {
    at: {
      label: "time",
      description: "Date and time to look at. If omitted, the last reading.",
      optional: true,
      read: (content): LogTime | undefined => readTime(content, "time"),
    },
    scale: logScale,
  },
  ({ cells, fermentation }) => ({ zone: cells.zone, fall: fallOf(fermentation) }),
  ({ at, scale }, { zone, fall }, to) => {
    const { gravity, rate } = fall(at && inZone(at, zone));
    step(to, "smooth gravity at that time", gravityOfPoints(gravity), "SG", "isotonic regression");
    step(to, "fall", rate, "points per day", "least squares");
    return scale === "SG" ? rate : step(to, "fall", rate / pointsPerPlato(gravity), "°P per day");
  },
);

export const FERMENT_REACHES = ofLog(
  {
    name: "FERMENT.REACHES",
    topic: "Fermentation",
    question: "When will it reach the gravity for dry hops, or for the rest at the end?",
    summary: "Date and time at which a fermentation reached a gravity, or is forecast to.",
    returns: `When it came down to the gravity for good, or will: ${AS_DATE}. #N/A with the reason where the log cannot say.`,
    examples: [
      { formula: "GYLE.FERMENT.REACHES(A2:A900,B2:B900,1.018)", says: "When it comes down to 1.018." },
    ],
    method:
      CLEANED +
      "Reached: straight between the smooth gravities on either side. A forecast carries on from the readings since sugar was last added, " +
      "after the first fifth of their fall, with the likelier of a logistic and a Gompertz curve of four parameters (least " +
      "squares, Akaike's weights). It takes 6 readings, a fall of 5 points that has begun to slow, and is refused where two standard errors, " +
      "of the fit and of the difference between the curves, come to more than a day and more than half of the time ahead, or " +
      "where it would look farther ahead than the log is long. Times with a zone give results in the zone of the first.",
    caution: PRESSURE,
  },
  {
    target: finalGravity("target", "Gravity to reach: SG (1.018 or 1018), or °P (see scale)."),
    scale: logScale,
  },
  ({ fermentation }) => reachedBy(fermentation),
  ({ target, scale }, reached, to) => {
    const { time, standardError } = reached(pointsOfExtract(readGravity(target, scale, "target", to)));
    if (standardError !== undefined)
      step(to, "standard error of the forecast", standardError, "days", "fit, and difference of two curves");
    return step(to, standardError === undefined ? "reached" : "forecast", time, "date-time");
  },
);

/** Allowed tolerances, in the scale of the formula. */
export const tolerances: Record<GravityScale, Range> = {
  SG: { of: "tolerance", min: 0.0001, max: 0.01, unit: "SG" },
  P: { of: "tolerance", min: 0.025, max: 2, unit: "°P" },
};

function tolerancePoints(given: number | undefined, scale: GravityScale, { readings }: Fermentation): number {
  if (given === undefined) return defaultSteadyCriterion.tolerance;
  checkRange(tolerances[scale], given);
  return scale === "SG" ? pointsOfGravity(1 + given) : given * pointsPerPlato(readings.at(-1)?.smooth ?? NaN);
}

export const FERMENT_STEADY = ofLog(
  {
    name: "FERMENT.STEADY",
    topic: "Fermentation",
    question: "Has the gravity stood still?",
    summary: "TRUE when gravity has stood still for some days up to the last reading.",
    returns: "TRUE or FALSE. FALSE too where the log is shorter than the days asked for.",
    examples: [
      { formula: "GYLE.FERMENT.STEADY(A2:A900,B2:B900)", says: "No more than 0.001 SG in three days." },
      {
        formula: "GYLE.FERMENT.STEADY(A2:A900,B2:B900,5,0.0005)",
        says: "No more than half a point in five days.",
      },
    ],
    method:
      CLEANED +
      "Steady: from the last reading that is at least so many days older than the last one, smooth gravity has fallen by no " +
      "more than the tolerance. If omitted, no more than a hydrometer can show, 0.001 SG (about 0.25 °P), over three days: " +
      "common practice, no source. FALSE if the level rose in that time and stayed, if readings drift upwards, or if the last one was set aside; of " +
      "readings by hand, if any was set aside in that time, since a slip may be sugar.",
    caution: `TRUE says only that nothing moved. ${PRESSURE}`,
  },
  {
    days: optionalNumber({
      label: "number of days",
      description: "Days to stand still, 0.5 to 60. If omitted, 3.",
    }),
    tolerance: optionalNumber({
      label: "tolerance",
      description:
        "Fall that still counts as still, 0.0001 to 0.01 SG, or °P (see scale). If omitted, 0.001 SG.",
    }),
    scale: logScale,
  },
  ({ fermentation }) => fermentation,
  ({ days, tolerance, scale }, fermentation) =>
    isSteady(fermentation, {
      days: days ?? defaultSteadyCriterion.days,
      tolerance: tolerancePoints(tolerance, scale, fermentation),
    }),
);

const stageNames = ["started", "fastest", "slowing", "steady"] as const;

export const FERMENT_STAGES = overLog(
  {
    name: "FERMENT.STAGES",
    topic: "Fermentation",
    question: "Where does this fermentation stand?",
    summary:
      "Stages of a logged fermentation: started, fastest, slowing, steady, each with its time and gravity.",
    returns: `Four rows of three cells: the stage; when it began, ${AS_DATE}; and the gravity then. A stage that is not reached says "${notYet}".`,
    examples: [
      { formula: "GYLE.FERMENT.STAGES(A2:A900,B2:B900)", says: "Fills four rows and three columns." },
    ],
    method:
      CLEANED +
      "Started: 2 points below where the log begins. Fastest: where the rate (see FERMENT.RATE) is greatest. Slowing: from here on " +
      "it never again falls half as fast. Steady: from here, after slowing and the last sugar, it fell by no more than 1 point in the " +
      "three days that followed. The limits are our own choice or common practice, no source.",
    caution: PRESSURE,
  },
  (log, scale) => {
    const read = readingLog(log, scale);
    if (!read) return stageNames.map(() => ["", "", ""]);
    const stages = stagesOf(read.fermentation);
    return stageNames.map((name) => {
      const stage = stages[name];
      return stage ? [name, stage.time, writtenGravity(stage.gravity, scale)] : [name, notYet, ""];
    });
  },
);
