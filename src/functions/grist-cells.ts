import { extractMass } from "../core/extract-mass.js";
import type { Listener } from "../core/steps.js";
import { efficiency, extractShare, gristExtract, type YieldUnit } from "../core/grist.js";
import { kilogramsPer, litresPer, type MassUnit } from "../core/units.js";
import {
  BALANCE,
  inMassUnit,
  massUnit,
  sg,
  volume,
  volumeUnit,
  wort,
  YIELD,
  yieldSpan,
  yieldUnit,
} from "./amount-arguments.js";
import { companion, measurement } from "./argument.js";
import { elementwise, overLists } from "./define.js";

const grist = {
  amounts: measurement({
    label: "amount",
    description: "Amounts of the grist, one a row; empty rows are passed over.",
  }),
  yields: companion({
    label: "yield",
    description: `Extract that each could give, in yield_unit: ${yieldSpan}.`,
    beside: "amount",
    small: "0.01",
    really: "it gives no extract",
  }),
  yield_unit: yieldUnit,
  mass_unit: massUnit("amounts"),
};

interface Line {
  readonly amounts: number;
  readonly yields: number;
  readonly yield_unit: YieldUnit;
  readonly mass_unit: MassUnit;
}

/** Extract that a grist could give, kg. */
const possible = (lines: readonly Line[], to: Listener | undefined): number =>
  gristExtract(
    lines.map(({ amounts, yields, yield_unit, mass_unit }) => ({
      kilograms: amounts * kilogramsPer[mass_unit],
      share: extractShare(yields, yield_unit),
    })),
    to,
  );

export const EXTRACT_MASS = elementwise(
  {
    name: "EXTRACT.MASS",
    topic: "Mash and kettle",
    question: "How much extract is in this wort?",
    summary: "Mass of extract in a volume of wort.",
    returns: "Mass in mass_unit, kg if omitted.",
    examples: [{ formula: "GYLE.EXTRACT.MASS(23,1.048)", says: "About 2.9 kg of extract in 23 L." }],
    method: `Volume × density × extract. ${BALANCE}`,
  },
  { volume, gravity: wort, volume_unit: volumeUnit, mass_unit: massUnit("result") },
  ({ volume, gravity, volume_unit, mass_unit }, to) =>
    inMassUnit(extractMass(volume * litresPer[volume_unit], sg(gravity, "gravity", to), to), mass_unit, to),
);

export const EXTRACT_POTENTIAL = overLists(
  {
    name: "EXTRACT.POTENTIAL",
    topic: "Mash and kettle",
    question: "How much extract could this grist give?",
    summary: "Mass of extract that a grist could give if none stayed behind.",
    returns: "Mass, in the unit of the amounts.",
    examples: [
      { formula: "GYLE.EXTRACT.POTENTIAL(C2:C4,D2:D4)", says: "Malts in kg, yields in %." },
      { formula: 'GYLE.EXTRACT.POTENTIAL(C2:C4,D2:D4,"PPG","lbm")', says: "Pounds, and points·gal/lb." },
    ],
    method: `Sum of amount × yield. ${YIELD}`,
  },
  ["amounts", "yields", "yield_unit", "mass_unit"],
  {},
  grist,
  (_, lines, to) => inMassUnit(possible(lines, to), lines[0]?.mass_unit ?? "kg", to),
);

export const EFFICIENCY = overLists(
  {
    name: "EFFICIENCY",
    topic: "Mash and kettle",
    question: "How much of the grist's extract did I get?",
    summary:
      "Share of the grist's extract that is found in the wort: mash efficiency at kettle-full, brewhouse efficiency in the fermenter.",
    returns: "%, as a number of percent.",
    examples: [
      {
        formula: "GYLE.EFFICIENCY(GYLE.VOLUME.COOLED(31.5,72),1.038,C2:C4,D2:D4)",
        says: "Mash efficiency, from the cooled volume before the boil.",
      },
      {
        formula: "GYLE.EFFICIENCY(23,1.048,C2:C4,D2:D4)",
        says: "Brewhouse efficiency, from what went into the fermenter.",
      },
    ],
    method: `100 × EXTRACT.MASS / EXTRACT.POTENTIAL. ${YIELD}${BALANCE}`,
  },
  ["volume", "gravity", "amounts", "yields", "yield_unit", "volume_unit", "mass_unit"],
  { volume, gravity: wort, volume_unit: volumeUnit },
  grist,
  ({ volume, gravity, volume_unit }, lines, to) => {
    const found = extractMass(volume * litresPer[volume_unit], sg(gravity, "gravity", to), to);
    return efficiency(found, possible(lines, to), to);
  },
);
