/** One step of a calculation, told by the code that makes it. */
export interface Step {
  /** What was found, as a list would call it. */
  readonly what: string;
  readonly value: number;
  /** As printed after a number: "°C", "SG", "" for a ratio. */
  readonly unit: string;
  /** Where it comes from: a publication, the instrument's profile, or undefined for plain arithmetic. */
  readonly source: string | undefined;
}

/** Something that deserves a second look although the result stands. Temperatures are °C. */
export type Warning =
  /** A hydrometer was read in a sample so warm that reading cool would be better. */
  | { readonly kind: "hot-sample"; readonly tC: number }
  /** A reading outside the check points of a scale, where the nearest one is used. */
  | { readonly kind: "outside-checks"; readonly reading: number; readonly from: number; readonly to: number }
  /** A floating hydrometer was never compared with glass. */
  | { readonly kind: "never-calibrated" }
  /** A floating hydrometer reads outside its calibration pairs. */
  | { readonly kind: "outside-pairs"; readonly reading: number; readonly from: number; readonly to: number }
  /** No instrument was named, so the wort correction factor is the customary one. */
  | { readonly kind: "customary-factor"; readonly factor: number }
  /** A rule of thumb without a source. */
  | { readonly kind: "rule-of-thumb" }
  /** More extract was found than there can be; so little more that readings scatter as much. */
  | { readonly kind: "more-than-all"; readonly percent: number };

/** Someone who wants to know how a number comes about. */
export interface Listener {
  readonly step: (step: Step) => void;
  readonly warn: (warning: Warning) => void;
}

/** Tells a step to whoever listens, and gives its value on. */
export function step(
  to: Listener | undefined,
  what: string,
  value: number,
  unit: string,
  source?: string,
): number {
  to?.step({ what, value, unit, source });
  return value;
}

/** The source of what an instrument's profile says. */
export const PROFILE = "profile of the instrument";
