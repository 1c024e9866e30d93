// Which units of volume and mass go with a yield if a formula names none.
import { unitsOfYield, type YieldUnit } from "../../core/brewhouse/grist.js";
import { isMetric, type MassUnit, type VolumeUnit } from "../../core/brewhouse/units.js";
import { valueAt } from "../../core/numeric/value-at.js";
import { CellError } from "../contract/cell-value.js";
import { unitNeeded, yieldsDisagree } from "../contract/messages.js";

/** Units as a formula gives them; undefined if omitted. */
export interface GivenUnits {
  readonly yield_unit: YieldUnit | undefined;
  readonly volume_unit?: VolumeUnit | undefined;
  readonly mass_unit: MassUnit | undefined;
}

export interface AmountUnits {
  readonly volume: VolumeUnit;
  readonly mass: MassUnit;
}

/** Explanation for people, shown with the functions that use these rules. */
export const UNITS =
  "Units that are left out are those of the yield: US gallons and pounds with PPG, else litres and kilograms. If one is named and " +
  "the other would be of another system, both must be named. ";

const VOLUME = "volume unit";
const MASS = "mass unit";

/**
 * Units of volume and mass: a named unit is used as it is, whatever the yield is stated in; an omitted one is taken
 * from the system of the yield.
 *
 * @throws CellError if the default for an omitted unit would belong to another system than the named one
 */
export function amountUnits({ yield_unit, volume_unit, mass_unit }: GivenUnits): AmountUnits {
  const own = unitsOfYield[yield_unit ?? "PCT"];
  const units = { volume: volume_unit ?? own.volume, mass: mass_unit ?? own.mass };
  if (isMetric(units.volume) === isMetric(units.mass)) return units;
  if (volume_unit !== undefined && mass_unit === undefined)
    throw new CellError("#VALUE!", unitNeeded(VOLUME, volume_unit, MASS, own.mass, ["kg", "lbm"]));
  if (mass_unit !== undefined && volume_unit === undefined)
    throw new CellError("#VALUE!", unitNeeded(MASS, mass_unit, VOLUME, own.volume, ["l", "gal"]));
  return units;
}

/** Unit of the amounts if there is no volume. */
export const massUnitOf = ({ yield_unit, mass_unit }: GivenUnits): MassUnit =>
  mass_unit ?? unitsOfYield[yield_unit ?? "PCT"].mass;

/**
 * The common unit of all lines of a list; if several are named, the first.
 *
 * @param units line by line; at least one
 * @param label of the argument, as messages call it
 * @throws CellError if the lines differ and the argument is omitted
 */
export function agreed<T extends VolumeUnit | MassUnit>(
  units: readonly T[],
  isNamed: boolean,
  label: string,
): T {
  if (!isNamed && new Set(units).size > 1) throw new CellError("#VALUE!", yieldsDisagree(label));
  return valueAt(units, 0);
}
