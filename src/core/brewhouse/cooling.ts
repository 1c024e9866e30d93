import { volumeRange } from "./amounts.js";
import { checkRange } from "../refusal.js";
import { step, type Listener } from "../steps.js";
import { SUCROSE_FORM } from "../liquid/sucrose-expansion.js";
import { volumeRatio } from "../liquid/wort-density.js";

/** An ordinary wort. From 0 to 20 °P the contraction from the boil differs from its by less than 0.2 % of the volume. */
const ORDINARY_WORT = 12; // °P

/**
 * Volume of wort once it has cooled; nothing evaporates.
 *
 * @param volume in any unit
 * @param fromC temperature of that volume, °C, 0 to 100
 * @param toC temperature that it cools to, °C, 0 to 100
 * @param to is told the steps
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
