import { dropType } from "./content-types.js";
import type { PackagePatch } from "./package-patch.js";
import { dropRelationship, related } from "./relationships.js";

/**
 * Removes the calculation chain: the list of formula cells in the order in which Excel last calculated them. Excel
 * makes a new one, and reports a damaged file if it lists a cell without a formula.
 */
export function dropCalcChain(patch: PackagePatch, workbookPart: string): void {
  for (const { id, target } of related(patch, workbookPart, "calcChain")) {
    dropRelationship(patch, workbookPart, id);
    dropType(patch, target);
    patch.remove(target);
  }
}
