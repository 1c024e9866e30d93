import { extractShare } from "../core/grist.js";
import {
  blendedExtract,
  boiledExtract,
  boiledVolume,
  dilutionWater,
  fortifyingMass,
} from "../core/kettle.js";
import { litresPer } from "../core/units.js";
import {
  BALANCE,
  HOT,
  inMassUnit,
  massUnit,
  sg,
  target,
  volume,
  volumeUnit,
  wort,
  YIELD,
  yieldSpan,
  yieldUnit,
} from "./amount-arguments.js";
import { measurement, optionalNumber } from "./argument.js";
import { elementwise, overLists } from "./define.js";
import { gravity, writeGravity } from "./gravity-argument.js";

export const BOIL_GRAVITY = elementwise(
  {
    name: "BOIL.GRAVITY",
    topic: "Mash and kettle",
    question: "What will the gravity be after the boil?",
    summary: "Gravity of wort after boiling it down to a volume.",
    returns: "Gravity, SG 20/20.",
    examples: [{ formula: "GYLE.BOIL.GRAVITY(30,1.040,25)", says: "30 L of 1.040 boiled down to 25 L." }],
    method: `No extract is lost. Volumes in any one unit, at 20 °C. ${BALANCE}`,
    caution: HOT,
  },
  {
    volume,
    gravity: wort,
    end_volume: measurement({
      label: "end volume",
      description: "Volume after the boil, cooled, in the same unit.",
    }),
  },
  ({ volume, gravity, end_volume }, to) =>
    writeGravity(boiledExtract(volume, sg(gravity, "gravity", to), end_volume, to), "SG", to),
);

export const BOIL_VOLUME = elementwise(
  {
    name: "BOIL.VOLUME",
    topic: "Mash and kettle",
    question: "How far must I boil down?",
    summary: "Volume to boil wort down to for a target gravity.",
    returns: "Volume at 20 °C, in the unit it was given in.",
    examples: [{ formula: "GYLE.BOIL.VOLUME(30,1.040,1.048)", says: "Where to stop the boil for 1.048." }],
    method: `No extract is lost. ${BALANCE}`,
    caution: HOT,
  },
  { volume, gravity: wort, target },
  ({ volume, gravity, target }, to) =>
    boiledVolume(volume, sg(gravity, "gravity", to), sg(target, "target", to), to),
);

export const DILUTE = elementwise(
  {
    name: "DILUTE",
    topic: "Mash and kettle",
    question: "How much water should I add?",
    summary: "Water to add to wort for a target gravity.",
    returns: "Volume of water at 20 °C, in the unit of the wort.",
    examples: [
      { formula: "GYLE.DILUTE(23,1.056,1.048)", says: "Litres of water that bring 23 L of 1.056 to 1.048." },
    ],
    method: BALANCE,
    caution: HOT,
  },
  { volume, gravity: wort, target },
  ({ volume, gravity, target }, to) =>
    dilutionWater(volume, sg(gravity, "gravity", to), sg(target, "target", to), to),
);

export const FORTIFY = elementwise(
  {
    name: "FORTIFY",
    topic: "Mash and kettle",
    question: "How much malt extract or sugar should I add?",
    summary: "Malt extract or sugar to add to wort for a target gravity.",
    returns: "Mass in mass_unit, kg if omitted.",
    examples: [
      { formula: "GYLE.FORTIFY(30,1.036,1.040)", says: "kg of white sugar." },
      { formula: "GYLE.FORTIFY(30,1.036,1.040,79)", says: "kg of a malt extract syrup with 79 % extract." },
    ],
    method:
      "If no yield is given, 100 %: pure sugar. Dried malt extract has about 95 %, syrup about 79 % (common practice, no " +
      `source; the bag says). What is not extract counts as water. ${YIELD}${BALANCE}`,
    caution: HOT,
  },
  {
    volume,
    gravity: wort,
    target,
    yield: optionalNumber({
      label: "yield",
      description: `Extract of the addition, in yield_unit: ${yieldSpan}. If omitted, pure sugar.`,
    }),
    yield_unit: yieldUnit,
    volume_unit: volumeUnit,
    mass_unit: massUnit("result"),
  },
  ({ volume, gravity, target, yield: given, yield_unit, volume_unit, mass_unit }, to) => {
    const share = given === undefined ? 1 : extractShare(given, yield_unit);
    const litres = volume * litresPer[volume_unit];
    const extracts = [sg(gravity, "gravity", to), sg(target, "target", to)] as const;
    return inMassUnit(fortifyingMass(litres, ...extracts, share, to), mass_unit, to);
  },
);

export const BLEND = overLists(
  {
    name: "BLEND",
    topic: "Mash and kettle",
    question: "What do these worts come to together?",
    summary: "Gravity of several worts blended.",
    returns: "Gravity, SG 20/20.",
    examples: [{ formula: "GYLE.BLEND(A2:A4,B2:B4)", says: "First and later runnings together." }],
    method: `A mass balance, not an average of points; volumes in any one unit, at 20 °C. ${BALANCE}`,
  },
  ["volumes", "gravities"],
  {},
  {
    volumes: measurement({
      label: "volume",
      description: "Volumes, one a row, in one unit; empty rows are passed over.",
    }),
    gravities: gravity("gravity", "Their gravities: SG (1.048 or 1048)."),
  },
  (_, lines, to) =>
    writeGravity(
      blendedExtract(
        lines.map(({ volumes, gravities }) => ({ litres: volumes, extract: sg(gravities, "gravity") })),
        to,
      ),
      "SG",
      to,
    ),
);
