import { volumeRange } from "./amounts.js";
import { checkRange } from "../refusal.js";
import { step, type Listener } from "../steps.js";
import { SUCROSE_FORM } from "../liquid/sucrose-expansion.js";
import { volumeRatio } from "../liquid/wort-density.js";

/**
 * An ordinary wort. From 0 to 20 °P, contraction from the boil differs from that of this wort by less than 0.2 % of the
 * volume.
 */
const ORDINARY_WORT = 12; // °P

/**
 * Volume of wort after cooling; nothing evaporates.
 *
 * @param volume in any unit
 * @param fromC temperature at which the volume was measured, °C, 0 to 100
 * @param toC temperature it cools to, °C, 0 to 100
 * @param to listener for the steps
 * @returns volume in the same unit
 */
export function cooledVolume(volume: number, fromC: number, toC: number, to?: Listener): number {
  checkRange(volumeRange, volume);
  const ratio = step(
    to,
    "volume cool over volume hot",
    volumeRatio(ORDINARY_WORT, fromC, toC),
    "",
    SUCROSE_FORM,
  );
  return step(to, "volume once cooled", volume * ratio, "");
}
