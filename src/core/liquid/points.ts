import { extractOfGravity, gravitySlope, gravityUnchecked } from "./gravity.js";

// Falls in gravity are stated in points: 1000·(SG − 1).

export const pointsOfGravity = (gravity: number): number => 1000 * (gravity - 1);

export const gravityOfPoints = (points: number): number => 1 + points / 1000;

/** Points of an extract, °P. Unchecked, since a log may hold values beyond any wort. */
export const pointsOfExtract = (extract: number): number => pointsOfGravity(gravityUnchecked(extract));

/** Change in points per °P, near a gravity. @throws Refusal outside −4 to 30 °P */
export const pointsPerPlato = (points: number): number =>
  1000 * gravitySlope(extractOfGravity(gravityOfPoints(points)));
