import { Refusal } from "../refusal.js";
import { step, type Listener } from "../steps.js";
import { lastOf } from "../numeric/value-at.js";

// UK Excise Notice 226 (Beer Duty), paragraphs 30.2 and 30.3, table by the Laboratory of the Government Chemist, as
// quoted in public discussion; we have not seen the withdrawn notice itself. Last degree of each band and its factor.
export const dutyBands: readonly (readonly [lostTo: number, factor: number])[] = [
  [6.9, 0.125],
  [10.4, 0.126],
  [17.2, 0.127],
  [26.1, 0.128],
  [36.0, 0.129],
  [46.5, 0.13],
  [57.1, 0.131],
  [67.9, 0.132],
  [78.8, 0.133],
  [89.7, 0.134],
  [100.7, 0.135],
];

const NOTICE = "UK Excise Notice 226, as quoted in public discussion";

/** Gravities are declared in degrees, 1000 × SG, to one decimal. */
const toTenth = (degrees: number): number => Math.round(degrees * 10 + 1e-9) / 10;

/**
 * Alcoholic strength by the UK duty table: degrees of gravity lost × the factor of their band. A duty return rounds it
 * down to one decimal, which is left to the caller. The law and the tax office decide, not this function.
 *
 * @param original original gravity, SG 20/20
 * @param final present gravity, SG 20/20
 * @param to listener for the steps
 * @returns % vol
 * @throws Refusal above 100.7 degrees lost, where the table ends
 */
export function dutyAbv(original: number, final: number, to?: Listener): number {
  const lost = toTenth(toTenth(1000 * original) - toTenth(1000 * final));
  const band = dutyBands.find(([lostTo]) => lost <= lostTo);
  if (!band) throw new Refusal({ kind: "duty-table-ends", lost, most: lastOf(dutyBands)[0] });
  step(to, "degrees of gravity lost", lost, "degrees", "declared to one decimal");
  step(to, "factor of that band", band[1], "", NOTICE);
  return step(to, "alcoholic strength, not rounded down", lost * band[1], "% vol", NOTICE);
}
