/** One step of a calculation, reported by the code that computes it. */
export interface Step {
  /** What was computed, as a list would call it. */
  readonly what: string;
  readonly value: number;
  /** Unit as printed after a number: "°C", "SG", "" for a ratio. */
  readonly unit: string;
  /** Source: a publication, the instrument's profile, or undefined for plain arithmetic. */
  readonly source: string | undefined;
}

/** Something that deserves a second look although the result stands. Temperatures are °C. */
export type Warning =
  /** A hydrometer was read in so warm a sample that it would be better to let it cool. */
  | { readonly kind: "hot-sample"; readonly tC: number }
  /** A reading beyond the check points of a scale; the nearest one is used. */
  | { readonly kind: "outside-checks"; readonly reading: number; readonly from: number; readonly to: number }
  /** A floating hydrometer that was never compared with a glass one. */
  | { readonly kind: "never-calibrated" }
  /** A floating hydrometer reads beyond its calibration pairs. */
  | { readonly kind: "outside-pairs"; readonly reading: number; readonly from: number; readonly to: number }
  /** No instrument was named, so the customary wort correction factor was used. */
  | { readonly kind: "customary-factor"; readonly factor: number }
  /** A rule of thumb without a source. */
  | { readonly kind: "rule-of-thumb" }
  /** Slightly more extract was found than there can be; scatter of the readings explains it. */
  | { readonly kind: "more-than-all"; readonly percent: number };

/** Receives the steps and warnings of a calculation. */
export interface Listener {
  readonly step: (step: Step) => void;
  readonly warn: (warning: Warning) => void;
}

/** Reports a step to the listener, if there is one, and returns its value. */
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

/** Source of values from an instrument's profile. */
export const PROFILE = "profile of the instrument";
