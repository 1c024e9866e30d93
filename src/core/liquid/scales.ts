import { extractOfGravity, gravityOfExtract } from "./gravity.js";
import {
  densityOfGravity,
  extractOfDensity,
  extractOfDensity20,
  gravityOfDensity,
  wortDensity,
  wortDensity20,
} from "./wort-density.js";

/** 60 °F in °C. */
export const SIXTY_F = ((60 - 32) * 5) / 9;

/**
 * Scales for the strength of wort.
 *
 * SG: apparent specific gravity 20/20. P, BX: percent of extract (sucrose) by mass; the two are the same number. PTS:
 * points, 1000·(SG − 1). SG60: apparent specific gravity 60 °F/60 °F. KGM3: density at 20 °C, kg/m³.
 */
export const scales = ["SG", "P", "BX", "PTS", "SG60", "KGM3"] as const;
export type Scale = (typeof scales)[number];

/** Unit of each scale, as printed after a number. */
export const scaleUnits: Readonly<Record<Scale, string>> = {
  SG: "SG",
  P: "°P",
  BX: "°Bx",
  PTS: "points",
  SG60: "SG 60/60 °F",
  KGM3: "kg/m³",
};

/** Gravities are accepted as people write them: 1046 is 1.046. */
export function writtenSg(value: number): number {
  return value >= 500 && value <= 2000 ? value / 1000 : value;
}

/** °P from any scale. @throws Refusal outside −4 to 30 °P */
export function extractFrom(value: number, scale: Scale): number {
  switch (scale) {
    case "SG":
      return extractOfGravity(value);
    case "PTS":
      return extractOfGravity(1 + value / 1000);
    case "SG60":
      return extractOfDensity(densityOfGravity(value, SIXTY_F), SIXTY_F);
    case "KGM3":
      return extractOfDensity20(value);
    case "P":
    case "BX":
      gravityOfExtract(value); // refuses values outside the table
      return value;
  }
}

/** Any scale from °P. @throws Refusal outside −4 to 30 °P */
export function extractTo(extract: number, scale: Scale): number {
  switch (scale) {
    case "SG":
      return gravityOfExtract(extract);
    case "PTS":
      return 1000 * (gravityOfExtract(extract) - 1);
    case "SG60":
      return gravityOfDensity(wortDensity(extract, SIXTY_F), SIXTY_F);
    case "KGM3":
      return wortDensity20(extract);
    case "P":
    case "BX":
      gravityOfExtract(extract);
      return extract;
  }
}
