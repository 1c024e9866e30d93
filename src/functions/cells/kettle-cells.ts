import {
  blendedExtract,
  boiledExtract,
  boiledVolume,
  dilutionWater,
  fortifyingMass,
} from "../../core/brewhouse/kettle.js";
import { litresPer } from "../../core/brewhouse/units.js";
import {
  BALANCE,
  HOT,
  inMassUnit,
  massUnitByYield,
  target,
  volume,
  volumeUnitByYield,
  wort,
  wortAndTarget,
  wortScales,
  YIELD,
  yieldSpan,
  yieldUnit,
} from "../arguments/amount-arguments.js";
import { amountUnits, UNITS } from "../arguments/amount-units.js";
import { companion, measurement, optionalNotZero } from "../contract/argument.js";
import { elementwise, inLine, overLists } from "../contract/define.js";
import { readGravity, scale, writeGravity } from "../arguments/gravity-argument.js";
import { readYield } from "../arguments/percent.js";

export const BOIL_GRAVITY = elementwise(
  {
    name: "BOIL.GRAVITY",
    topic: "Mash and kettle",
    question: "What will the gravity be after the boil?",
    summary: "Gravity of wort after boiling it down to a volume.",
    returns: 'Gravity, SG 20/20, or °P if scale is "P".',
    examples: [
      { formula: "GYLE.BOIL.GRAVITY(30,1.040,25)", says: "30 L of 1.040 boiled down to 25 L." },
      { formula: 'GYLE.BOIL.GRAVITY(30,10,25,"P")', says: "The same in °P." },
    ],
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
    scale: scale("How the gravity and the result are written"),
  },
  ({ volume, gravity, end_volume, scale }, to) => {
    const extract = readGravity(gravity, scale, "gravity", to);
    return writeGravity(boiledExtract(volume, extract, end_volume, to), scale, to);
  },
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
  { volume, gravity: wort, target, scale: wortScales },
  ({ volume, ...gravities }, to) => boiledVolume(volume, ...wortAndTarget(gravities, to), to),
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
  { volume, gravity: wort, target, scale: wortScales },
  ({ volume, ...gravities }, to) => dilutionWater(volume, ...wortAndTarget(gravities, to), to),
);

export const FORTIFY = elementwise(
  {
    name: "FORTIFY",
    topic: "Mash and kettle",
    question: "How much malt extract or sugar should I add?",
    summary: "Malt extract or sugar to add to wort for a target gravity.",
    returns: "Mass in mass_unit. If that is left out, kg, or with PPG pounds.",
    examples: [
      { formula: "GYLE.FORTIFY(30,1.036,1.040)", says: "kg of white sugar." },
      { formula: "GYLE.FORTIFY(30,1.036,1.040,79)", says: "kg of a malt extract syrup with 79 % extract." },
      {
        formula: 'GYLE.FORTIFY(8,1.036,1.040,44,"PPG")',
        says: "Pounds of dried malt extract in 8 US gallons.",
      },
    ],
    method:
      "If no yield is given, 100 %: pure sugar. Dried malt extract has about 95 %, syrup about 79 % (common practice, no " +
      `source; the bag says). What is not extract counts as water. ${YIELD}${UNITS}${BALANCE}`,
    caution: HOT,
  },
  {
    volume,
    gravity: wort,
    target,
    yield: optionalNotZero({
      label: "yield",
      description: `Extract of the addition, in yield_unit: ${yieldSpan}. If omitted, pure sugar.`,
      wayOut: "For pure sugar leave the argument out, or write 100 (%).",
    }),
    yield_unit: yieldUnit,
    volume_unit: volumeUnitByYield,
    mass_unit: massUnitByYield("result"),
    scale: wortScales,
  },
  ({ volume, yield: given, yield_unit, volume_unit, mass_unit, ...gravities }, to) => {
    const units = amountUnits({ yield_unit, volume_unit, mass_unit });
    const share = given === undefined ? 1 : readYield(given, yield_unit);
    const litres = volume * litresPer[units.volume];
    return inMassUnit(fortifyingMass(litres, ...wortAndTarget(gravities, to), share, to), units.mass, to);
  },
);

export const BLEND = overLists(
  {
    name: "BLEND",
    topic: "Mash and kettle",
    question: "What do these worts come to together?",
    summary: "Gravity of several worts blended.",
    returns: 'Gravity, SG 20/20, or °P if scale is "P".',
    examples: [
      { formula: "GYLE.BLEND(A2:A4,B2:B4)", says: "First and later runnings together." },
      { formula: 'GYLE.BLEND(A2:A4,B2:B4,"P")', says: "The same, with gravities in °P." },
    ],
    method: `A mass balance, not an average of points; volumes in any one unit, at 20 °C. ${BALANCE}`,
  },
  ["volumes", "gravities", "scale"],
  { scale: scale("How the gravities and the result are written") },
  {
    volumes: measurement({
      label: "volume",
      description: "Volumes, one a row, in one unit; rows without a volume are passed over.",
    }),
    gravities: companion({
      label: "gravity",
      description:
        "Their gravities: SG (1.048 or 1048), or °P (see scale). Each volume needs one; water is 1.",
      beside: "volume",
      small: "1, or 0.01 as °P",
      really: "it is water",
    }),
  },
  ({ scale }, lines, to) => {
    const portions = lines.map(({ row, volumes, gravities }) => ({
      litres: volumes,
      extract: inLine(row, () => readGravity(gravities, scale, "gravity")),
    }));
    return writeGravity(blendedExtract(portions, to), scale, to);
  },
);
