// How to take a good reading, by kind of instrument. Anything without a source is marked as common practice where it is
// shown.
import { trustedReach } from "../core/instrument/floating.js";
import { sampleTemperature } from "../core/instrument/hydrometer.js";
import { pairExtract } from "../core/instrument/refractometer-calibration.js";
import { refractometerTemperature } from "../core/instrument/refractometer-temperature.js";
import type { Range } from "../core/refusal.js";
import type { Kind } from "../instruments/schema.js";

export interface GoodReadings {
  /** Precautions, shown first. */
  readonly caution: string;
  readonly lies: readonly string[];
  readonly steps: readonly string[];
  readonly writeDown: readonly string[];
  readonly check: readonly string[];
  readonly wrong: readonly (readonly [sign: string, cause: string])[];
}

const span = ({ min, max, unit }: Range): string => `${min} to ${max} ${unit}`;

export const goodReadings: Readonly<Record<Kind, GoodReadings>> = {
  hydrometer: {
    caution:
      "Never put a glass hydrometer into hot wort: the glass breaks in it, and hot wort scalds. Cool the sample first, and let no broken " +
      "glass near the beer.",
    lies: [
      "It is right only at the temperature marked on it, often 20 °C or 60 °F. Warm wort is thinner, so it reads low.",
      "Liquid climbs the stem. A reading of 1.046 at the raised edge is about 1.047 at the level surface.",
      "The paper inside may slip, and then every reading is off by as much.",
    ],
    steps: [
      "Draw about 250 mL into a clean jar that stands level, through a strainer if there are hops or husks in it.",
      "Let it cool until the jar feels neither warm nor cold, near the temperature marked on the hydrometer.",
      "Of fermenting beer, pour it from glass to glass until it hardly foams any more: gas makes it float too high.",
      "Wipe the hydrometer dry and clean. Fill the jar to just below its rim, so that you can see along the surface.",
      "Lower it in by the top of the stem and give it a gentle spin. It must touch neither wall nor bottom, and no bubble may cling to it.",
      "When it rests, bring your eye to the level of the surface. Read where the level surface cuts the stem, not the edge that climbs it.",
      "In dark wort, where only the raised edge can be seen, read that, and say so in the profile: “top of the meniscus”.",
      "Take the temperature of the sample in the jar, at once.",
      "Drink the sample or pour it away; it does not go back.",
    ],
    writeDown: [
      "the reading as it stands on the scale, uncorrected;",
      `the temperature of the sample, in the unit of your thermometer (${span(sampleTemperature)} can be put right, but cool is worth more);`,
      "which hydrometer it was, by the name that its profile has.",
    ],
    check: [
      "In distilled water at the temperature marked on it an SG scale shows 1.000. What it shows instead is its first check point.",
      "Check it where you use it as well: the pane says how many grams of sugar make which gravity.",
      "One shift for all of the scale: CALIBRATE.SHIFT. Different ones along it: check points, under Calibrate in the pane.",
      "Once a year, and whenever it has had a knock.",
    ],
    wrong: [
      ["reads high, and changes as you watch", "bubbles on it; or gas in the beer"],
      ["reads low", "a warm sample; or the raised edge was read and the profile says “level surface”"],
      ["does not move", "it touches the wall, or stands on the bottom: fill the jar"],
      ["every reading off by the same", "the paper has slipped: calibrate"],
      ["one reading cannot be", "°P taken for SG, °F for °C, or a row mixed up"],
    ],
  },
  refractometer: {
    caution:
      "A drop of hot wort scalds too, and a hot prism misleads: let it cool on the prism. Never call beer finished by refractometer alone.",
    lies: [
      "Its scale is made for sugar in water. Wort bends light a little more: its wort correction factor says how much.",
      "Alcohol bends light too. Once there is any, the scale reads too high, and plain °Bx mean nothing any more.",
      "Warmth changes it. Some compensate that and some do not; the box says ATC if it does.",
    ],
    steps: [
      "Rinse the prism with clean water and dry it with a soft cloth.",
      "Put a few drops of the sample on it, enough to cover all of it. Close the lid without a bubble.",
      "Wait half a minute, so that the drop comes to the temperature of the prism.",
      "Hold it to the light and read where blue meets white. A blurred line means grain, yeast or too little sample: take another drop.",
      "If it does not compensate temperature, write down that of the prism.",
      "Read twice, with a fresh drop. Rinse and dry the prism.",
    ],
    writeDown: [
      "the reading in °Bx, uncorrected, and not turned into SG;",
      `the temperature of the prism, if it does not compensate (${span(refractometerTemperature)} can be put right);`,
      "which refractometer it was; and of fermenting beer, the original gravity or the °Bx of its wort.",
    ],
    check: [
      "On distilled water it shows 0. Set it so by its screw, or write what it shows into the profile.",
      `Find your own wort correction factor: read several worts (${span(pairExtract)}) with it and with a hydrometer, before yeast goes in. CALIBRATE.FACTOR or the pane does the rest.`,
      "Check it on water at the start of every brew day.",
    ],
    wrong: [
      ["a blurred line", "grain, yeast or fat on the prism; too little sample"],
      ["reads high after a while", "water has gone from the drop: close the lid and read at once"],
      ["far too high once it ferments", "alcohol: use REFRACTOMETER.BEER with the original"],
      ["always a little off the hydrometer", "the factor is the customary one: find your own"],
      ["drifts through the day", "it has warmed up: check it on water again"],
    ],
  },
  floating: {
    caution:
      "Take final values with glass. Do not decide from a floating hydrometer alone that beer is finished and safe to bottle.",
    lies: [
      "It knows its tilt, not the gravity: one is worked out from the other, and drifts.",
      "Foam, yeast and dry hops lie on it or push it against the wall, and then it jumps.",
      "It reads less exactly than glass, and some only every few minutes.",
    ],
    steps: [
      "Clean and disinfect it as its maker says, and let it come to the temperature of the wort.",
      "Put it in with the yeast, where it floats free: no cooling coil, no bag of hops, room to turn.",
      "Read the wort with glass at the same time: that is the first calibration pair.",
      "Leave it alone. Note when you add hops or sugar, or move the fermenter; the log shows a jump there.",
      "Read with glass once more towards the end: that is the second pair, and the final value.",
    ],
    writeDown: [
      "the log as it is: date and time, and the gravity that it shows, spikes and all;",
      "each glass reading with its time and temperature;",
      "what you did to the fermenter, and when.",
    ],
    check: [
      "Enter the pairs in the pane under Calibrate. One pair gives a shift, two or more a line.",
      `The line is trusted up to ${trustedReach.SG} SG (${trustedReach.P} °P) beyond the outermost pair, so take one pair at the start and one near the end.`,
      "After a new battery or an update of its program, take new pairs.",
    ],
    wrong: [
      ["jumps up and comes back", "foam or a bubble: FERMENT.SMOOTH sets it aside"],
      ["jumps and stays", "something lies on it; or you added sugar"],
      ["creeps up at the end", "yeast settles on it; compare with glass"],
      ["stands still while the airlock bubbles", "it is stuck on the wall, or gas goes on leaving the beer"],
      ["reads below anything possible", "calibrate again, in wort and in beer"],
    ],
  },
};
