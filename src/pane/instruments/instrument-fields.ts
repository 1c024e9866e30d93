// The form fields of each kind of instrument.
import type { Kind } from "../../instruments/schema.js";

/** What was typed and chosen, by field. */
export type FieldValues = Readonly<Record<string, string>>;

export interface FormField {
  /** As in the profile. */
  readonly key: string;
  readonly label: string;
  readonly hint?: string;
  readonly optional?: true;
  /** The possible values, if there are only a few. */
  readonly choices?: readonly { readonly value: string; readonly label: string }[];
  readonly unit?: (values: FieldValues) => string | undefined;
  /** It is a mark on the scale, so 1046 may stand for 1.046. */
  readonly mark?: true;
  /** Condition for showing the field. */
  readonly when?: (values: FieldValues) => boolean;
}

const scaleName: Record<string, string> = { SG: "SG", P: "°P", BX: "°Bx" };
const scaleUnit = (values: FieldValues): string | undefined => scaleName[values["scale"] ?? ""];
const degrees = (values: FieldValues): string => `°${values["temperatureUnit"] ?? "C"}`;
const onSg = (values: FieldValues): boolean => values["scale"] === "SG";

const scale = (...allowed: readonly string[]): FormField => ({
  key: "scale",
  label: "Scale",
  choices: allowed.map((value) => ({ value, label: scaleName[value] ?? value })),
});

const thermometer: FormField = {
  key: "temperatureUnit",
  label: "Sample temperatures are in",
  choices: [
    { value: "C", label: "°C" },
    { value: "F", label: "°F" },
  ],
  hint: "Formulas that name this instrument expect temperatures in this unit.",
};

const division: FormField = { key: "division", label: "Smallest division", optional: true, unit: scaleUnit };

export const fieldsOf: Readonly<Record<Kind, readonly FormField[]>> = {
  hydrometer: [
    scale("SG", "P", "BX"),
    thermometer,
    {
      key: "calibrationTemperature",
      label: "True at",
      unit: degrees,
      hint: "Printed on the paper in its neck or on the box: often 20 °C or 60 °F.",
    },
    {
      key: "referenceTemperature",
      label: "Compared with water of",
      optional: true,
      unit: degrees,
      when: onSg,
      hint: "Only where two different temperatures are printed, such as 20/4.",
    },
    {
      key: "read",
      label: "You read it at",
      choices: [
        { value: "level", label: "the level surface" },
        { value: "top", label: "the raised edge at the stem" },
      ],
    },
    {
      key: "meniscusAllowance",
      label: "Added for the raised edge",
      unit: scaleUnit,
      when: (values) => values["read"] === "top",
      hint: "Liquid climbs the stem: where the level surface shows 1.047 the raised edge shows about 1.046, so 0.001 (common practice). Compare the two on yours.",
    },
    { key: "lowest", label: "Lowest graduation", optional: true, unit: scaleUnit, mark: true },
    {
      key: "highest",
      label: "Highest graduation",
      optional: true,
      unit: scaleUnit,
      mark: true,
      hint: "With both, a reading off the scale is refused instead of believed.",
    },
    division,
    { key: "maximumError", label: "Maker's maximum error", optional: true, unit: scaleUnit },
  ],
  refractometer: [
    scale("BX", "SG"),
    {
      key: "compensates",
      label: "Compensates temperature",
      choices: [
        { value: "true", label: "Yes" },
        { value: "false", label: "No" },
      ],
      hint: "If not, formulas need the temperature of the prism (10 to 30 °C).",
    },
    thermometer,
    {
      key: "wortFactor",
      label: "Wort correction factor",
      hint: "°Bx shown over °P that are there: wort is not pure sugar. 1.04 is common practice; Calibrate finds your own.",
    },
    {
      key: "waterReading",
      label: "Shows on distilled water",
      optional: true,
      unit: scaleUnit,
      mark: true,
    },
    division,
  ],
  floating: [
    scale("SG", "P"),
    {
      key: "scatter",
      label: "Typical scatter of a reading",
      optional: true,
      unit: scaleUnit,
      hint: "Floating hydrometers are less exact than glass; foam and dry hops disturb them.",
    },
  ],
};
