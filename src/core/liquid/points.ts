import { extractOfGravity, gravitySlope, gravityUnchecked } from "./gravity.js";

// Falls are spoken of in points: 1000·(SG − 1).

export const pointsOfGravity = (gravity: number): number => 1000 * (gravity - 1);

export const gravityOfPoints = (points: number): number => 1 + points / 1000;

/** Points of an extract, °P, also where a log has something beyond any wort. */
export const pointsOfExtract = (extract: number): number => pointsOfGravity(gravityUnchecked(extract));

/** By how many points gravity changes for 1 °P, near a gravity. @throws Refusal outside −4 to 30 °P */
export const pointsPerPlato = (points: number): number =>
  1000 * gravitySlope(extractOfGravity(gravityOfPoints(points)));
