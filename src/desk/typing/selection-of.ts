import type { IRange, Worksheet } from "@univerjs/core";
import type { ISelectionWithStyle } from "@univerjs/preset-sheets-core";

/** A selection as Univer wants it: a range, and the first cell of it as the one that is typed into. */
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
