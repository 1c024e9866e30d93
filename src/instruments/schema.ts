import type { CheckPoint } from "../core/instrument/check-point.js";
import * as z from "zod";
import { calibrationLine, calibrationSlope } from "../core/instrument/calibration.js";
import { sampleTemperature, scaleMarks } from "../core/instrument/hydrometer.js";
import type { Range } from "../core/refusal.js";
import { waterReadingRange, wortFactorRange } from "../core/instrument/refractometer.js";
import { fromCelsius } from "../core/liquid/temperature.js";

/** Longer names are a mistake, and no list could show them. */
export const LONGEST_NAME = 100;
export const MAX_PAIRS = 50;

const within = ({ min, max }: Pick<Range, "min" | "max">) => z.number().min(min).max(max);

/** Refuses numbers outside a profile's scale. */
function checkMarks(
  context: z.RefinementCtx,
  scale: keyof typeof scaleMarks,
  values: readonly (readonly [Path, number | undefined])[],
) {
  const { min, max } = scaleMarks[scale];
  for (const [path, value] of values)
    if (value !== undefined && !(value >= min && value <= max))
      problem(context, path, `a number from ${min} to ${max}`);
}

type Path = readonly (string | number)[];

/** @param allowed what the field may hold; the sentence is made where problems are shown */
function problem(context: z.RefinementCtx, path: Path, allowed: string): void {
  context.addIssue({ code: "custom", path: [...path], message: allowed });
}

function pairMarks(field: string, pairs: readonly CheckPoint[]): [Path, number][] {
  return pairs.flatMap((pair, i): [Path, number][] => [
    [[field, i, "reading"], pair.reading],
    [[field, i, "true"], pair.true],
  ]);
}

const checkPoint = z.strictObject({ reading: z.number(), true: z.number() });
export const name = z.string().trim().min(1).max(LONGEST_NAME);
/** Time of the last change; the later of two edits wins when workbooks are merged. */
export const edited = z.iso.datetime({ offset: true });

const common = { name, edited: edited.optional() };

const thermometer = z.enum(["C", "F"]);

const hydrometerProfile = z
  .strictObject({
    ...common,
    kind: z.literal("hydrometer"),
    scale: z.enum(["SG", "P", "BX"]),
    /** Unit of the sample temperature that goes with its readings, and of the two temperatures below. */
    temperatureUnit: thermometer,
    calibrationTemperature: z.number(),
    /** Temperature of the water to which an SG scale refers, if it is not the calibration temperature. */
    referenceTemperature: z.number().optional(),
    lowest: z.number().optional(),
    highest: z.number().optional(),
    division: z.number().positive().optional(),
    read: z.enum(["level", "top"]),
    /** Correction for a reading at the top of the meniscus, in units of the scale. */
    meniscusAllowance: z.number().min(0).max(1).optional(),
    checks: z.array(checkPoint).max(MAX_PAIRS).optional(),
    maximumError: z.number().positive().optional(),
  })
  .superRefine((profile, context) => {
    const { temperatureUnit, lowest, highest, read, meniscusAllowance, scale, checks = [] } = profile;
    const [coldest = 0, hottest = 0] = [sampleTemperature.min, sampleTemperature.max].map((c) =>
      fromCelsius(c, temperatureUnit),
    );
    for (const field of ["calibrationTemperature", "referenceTemperature"] as const) {
      const value = profile[field];
      if (value !== undefined && !(value >= coldest && value <= hottest))
        problem(context, [field], `a number from ${coldest} to ${hottest} °${temperatureUnit}`);
    }
    if (profile.referenceTemperature !== undefined && scale !== "SG")
      problem(context, ["referenceTemperature"], "nothing here: only an SG scale compares with water");
    checkMarks(context, scale, [
      [["lowest"], lowest],
      [["highest"], highest],
      ...pairMarks("checks", checks),
    ]);
    if (lowest !== undefined && highest !== undefined && lowest >= highest)
      problem(context, ["highest"], `a number above the lowest graduation, ${lowest}`);
    if (read === "top" && meniscusAllowance === undefined)
      problem(
        context,
        ["meniscusAllowance"],
        "how much a reading at the top of the meniscus is short, such as 0.001",
      );
    if (read === "level" && meniscusAllowance !== undefined)
      problem(context, ["meniscusAllowance"], 'nothing here while "read" is "level"');
  });

const refractometerProfile = z
  .strictObject({
    ...common,
    kind: z.literal("refractometer"),
    scale: z.enum(["BX", "SG"]),
    /** Unit of the temperature that goes with its readings. */
    temperatureUnit: thermometer,
    compensates: z.boolean(),
    wortFactor: within(wortFactorRange),
    /** Reading on distilled water, in units of its scale. */
    waterReading: z.number().optional(),
    division: z.number().positive().optional(),
  })
  .superRefine(({ scale, waterReading }, context) => {
    const { min, max } = waterReadingRange[scale];
    if (waterReading !== undefined && !(waterReading >= min && waterReading <= max))
      problem(context, ["waterReading"], `a number from ${min} to ${max}: what it shows on water`);
  });

const floatingProfile = z
  .strictObject({
    ...common,
    kind: z.literal("floating"),
    scale: z.enum(["SG", "P"]),
    /** Its readings, paired with those of a glass hydrometer. */
    pairs: z.array(checkPoint).max(MAX_PAIRS),
    /** Typical standard deviation of one logged reading, in units of the scale. */
    scatter: z.number().positive().optional(),
  })
  .superRefine(({ scale, pairs }, context) => {
    checkMarks(context, scale, pairMarks("pairs", pairs));
    try {
      calibrationLine(pairs);
    } catch {
      const { min, max } = calibrationSlope;
      problem(context, ["pairs"], `pairs whose line has a slope from ${min} to ${max}`);
    }
  });

/** An instrument profile: a name, a kind, and only what its kind needs. */
export const profile = z.discriminatedUnion("kind", [
  hydrometerProfile,
  refractometerProfile,
  floatingProfile,
]);

export type HydrometerProfile = z.infer<typeof hydrometerProfile>;
export type RefractometerProfile = z.infer<typeof refractometerProfile>;
export type FloatingProfile = z.infer<typeof floatingProfile>;
export type Profile = z.infer<typeof profile>;
export type Kind = Profile["kind"];
