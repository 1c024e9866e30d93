import { extractMass } from "../../core/brewhouse/extract-mass.js";
import { efficiency, gristExtract, type YieldUnit } from "../../core/brewhouse/grist.js";
import type { Listener } from "../../core/steps.js";
import { kilogramsPer, litresPer, type MassUnit } from "../../core/brewhouse/units.js";
import { valueAt } from "../../core/numeric/value-at.js";
import {
  BALANCE,
  inMassUnit,
  massUnit,
  massUnitByYield,
  volume,
  volumeUnit,
  volumeUnitByYield,
  wort,
  wortScale,
  YIELD,
  yieldSpan,
  yieldUnit,
} from "../arguments/amount-arguments.js";
import { agreed, amountUnits, massUnitOf, UNITS } from "../arguments/amount-units.js";
import { companion, measurement } from "../contract/argument.js";
import { elementwise, inLine, overLists } from "../contract/define.js";
import { readGravity } from "../arguments/gravity-argument.js";
import { readYield } from "../arguments/percent.js";

const grist = {
  amounts: measurement({
    label: "amount",
    description: "Amounts of the grist, one a row; empty rows are passed over.",
  }),
  yields: companion({
    label: "yield",
    description: `Extract that each could give, in yield_unit: ${yieldSpan}.`,
    beside: "amount",
    small: "nothing for its amount",
    really: "it gives no extract",
  }),
  yield_unit: yieldUnit,
  mass_unit: massUnitByYield("amounts"),
};

interface Line {
  readonly row: number;
  readonly amounts: number;
  readonly yields: number;
  readonly yield_unit: YieldUnit;
  readonly mass_unit: MassUnit | undefined;
}

const areNamed = (lines: readonly Line[]): boolean => lines.every(({ mass_unit }) => mass_unit !== undefined);

/** Extract that a grist could give, kg. @param units of the amounts, line by line */
const possible = (lines: readonly Line[], units: readonly MassUnit[], to: Listener | undefined): number =>
  gristExtract(
    lines.map(({ row, amounts, yields, yield_unit }, i) => ({
      kilograms: amounts * kilogramsPer[valueAt(units, i)],
      share: inLine(row, () => readYield(yields, yield_unit)),
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
  { volume, gravity: wort, volume_unit: volumeUnit, mass_unit: massUnit, scale: wortScale },
  ({ volume, gravity, volume_unit, mass_unit, scale }, to) => {
    const extract = readGravity(gravity, scale, "gravity", to);
    return inMassUnit(extractMass(volume * litresPer[volume_unit], extract, to), mass_unit, to);
  },
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
      { formula: 'GYLE.EXTRACT.POTENTIAL(C2:C4,D2:D4,"PPG")', says: "Pounds, and points·gal/lb." },
    ],
    method: `Sum of amount × yield. ${YIELD}If mass_unit is left out it is that of the yield: pounds with PPG, else kilograms.`,
  },
  ["amounts", "yields", "yield_unit", "mass_unit"],
  {},
  grist,
  (_, lines, to) => {
    const units = lines.map(massUnitOf);
    const unit = agreed(units, areNamed(lines), "mass unit");
    return inMassUnit(possible(lines, units, to), unit, to);
  },
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
      {
        formula: 'GYLE.EFFICIENCY(6,1.050,C2:C4,D2:D4,"PPG")',
        says: "US gallons, pounds, and points·gal/lb.",
      },
    ],
    method: `100 × EXTRACT.MASS / EXTRACT.POTENTIAL. ${YIELD}${UNITS}${BALANCE}`,
  },
  ["volume", "gravity", "amounts", "yields", "yield_unit", "volume_unit", "mass_unit", "scale"],
  { volume, gravity: wort, volume_unit: volumeUnitByYield, scale: wortScale },
  grist,
  ({ volume, gravity, volume_unit, scale }, lines, to) => {
    const units = lines.map((line) => amountUnits({ ...line, volume_unit }));
    const masses = units.map(({ mass }) => mass);
    agreed(masses, areNamed(lines), "mass unit");
    const litres = agreed(
      units.map((each) => each.volume),
      volume_unit !== undefined,
      "volume unit",
    );
    const found = extractMass(volume * litresPer[litres], readGravity(gravity, scale, "gravity", to), to);
    return efficiency(found, possible(lines, masses, to), to);
  },
);
