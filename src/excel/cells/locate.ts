import { parseA1Ref } from "@borgar/fx/xlsx";
import type { CellAddress, SheetPlace } from "../../cells/place.js";
import { sheetGone, type Failed } from "./reach.js";
import type { WorkbookNames } from "./workbook-names.js";

/** Places of cells found some time ago; those whose sheet no longer exists are failures. */
export function locate<T extends CellAddress>(
  cells: readonly T[],
  names: WorkbookNames,
): { readonly places: readonly (SheetPlace & { readonly found: T })[]; readonly failures: Failed[] } {
  const failures: Failed[] = [];
  const places = cells.flatMap((found) => {
    const sheet = names.sheet(found.sheet);
    const parsed = parseA1Ref(found.address);
    if (sheet === undefined || !parsed || !("range" in parsed)) {
      failures.push({ sheet: found.sheet, address: found.address, why: sheetGone(found.sheet) });
      return [];
    }
    return [{ sheet, row: parsed.range.top ?? 0, column: parsed.range.left ?? 0, found }];
  });
  return { places, failures };
}
