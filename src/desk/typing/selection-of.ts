import type { IRange, Worksheet } from "@univerjs/core";
import type { ISelectionWithStyle } from "@univerjs/preset-sheets-core";

/** A selection for Univer: a range, with its first cell as the active one. */
export function selectionOf(sheet: Worksheet, range: IRange): ISelectionWithStyle {
  const { startRow, startColumn } = range;
  const merged = sheet.getMergedCell(startRow, startColumn);
  return {
    range,
    primary: {
      ...(merged ?? { startRow, startColumn, endRow: startRow, endColumn: startColumn }),
      actualRow: startRow,
      actualColumn: startColumn,
      isMerged: merged !== null,
      isMergedMainCell: merged !== null,
    },
    style: null,
  };
}
