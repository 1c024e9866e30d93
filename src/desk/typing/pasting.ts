import {
  ICommandService,
  IUniverInstanceService,
  UniverInstanceType,
  type ICellData,
  type IRange,
  type Workbook,
  type Worksheet,
} from "@univerjs/core";
import { ISheetClipboardService, SheetsSelectionsService } from "@univerjs/preset-sheets-core";
import { enteredCell, type ReadEntry } from "./entered-cell.js";
import { pastedTexts, type Texts } from "./pasted-texts.js";
import { selectionOf } from "./selection-of.js";
import type { UniverSheet } from "../univer/univer.js";

/**
 * Handles content pasted from elsewhere as if each text had been typed into its cell: values and formulas, without
 * formatting. Content copied on this page is left to Univer, which adjusts formulas.
 */
export function pasteAsTyped({ univer }: UniverSheet, reader: () => ReadEntry): void {
  const injector = univer.__getInjector();
  const clipboard = injector.get<ISheetClipboardService>(ISheetClipboardService);
  const selections = injector.get(SheetsSelectionsService);
  const instances = injector.get<IUniverInstanceService>(IUniverInstanceService);
  const commands = injector.get<ICommandService>(ICommandService);

  const isOwn = (html: string): boolean => {
    const id = /data-copy-id="([^"]+)"/.exec(html)?.[1];
    return id !== undefined && clipboard.copyContentCache().get(id) !== undefined;
  };

  const paste = async (texts: Texts): Promise<boolean> => {
    const sheet = instances.getCurrentUnitOfType<Workbook>(UniverInstanceType.UNIVER_SHEET)?.getActiveSheet();
    const selected = selections.getCurrentLastSelection()?.range;
    if (!sheet || !selected) return false;
    const range = pastedRange(selected, texts);
    const place = { unitId: sheet.getUnitId(), subUnitId: sheet.getSheetId() };
    for (const { id, range: added } of missing(sheet, range))
      commands.syncExecuteCommand(id, { ...place, range: added });
    const value = pastedCells(sheet, range, texts, reader());
    const isDone = await commands.executeCommand("sheet.command.set-range-values", { ...place, value });
    if (isDone)
      await commands.executeCommand("sheet.operation.set-selections", {
        ...place,
        selections: [selectionOf(sheet, range)],
      });
    return isDone;
  };

  const pasteByKey = clipboard.legacyPaste.bind(clipboard);
  const pasteByMenu = clipboard.paste.bind(clipboard);
  clipboard.legacyPaste = async (html, text, files) =>
    isOwn(html ?? "") || !(html || text)
      ? pasteByKey(html, text, files)
      : paste(pastedTexts(html ?? "", text ?? ""));
  clipboard.paste = async (item, kind) => {
    const read = async (type: string): Promise<string> =>
      item.types.includes(type) ? (await item.getType(type)).text() : "";
    const [html, text] = [await read("text/html"), await read("text/plain")];
    return isOwn(html) || !(html || text) ? pasteByMenu(item, kind) : paste(pastedTexts(html, text));
  };
}

/** Starts at the first selected cell; if the selection is a multiple of the size, it is filled with copies. */
function pastedRange({ startRow, startColumn, endRow, endColumn }: IRange, texts: Texts): IRange {
  const [height, width] = [texts.length, texts[0]?.length ?? 1];
  const filled = (selected: number, size: number): number => (selected % size === 0 ? selected : size);
  return {
    startRow,
    startColumn,
    endRow: startRow + filled(endRow - startRow + 1, height) - 1,
    endColumn: startColumn + filled(endColumn - startColumn + 1, width) - 1,
  };
}

function pastedCells(
  sheet: Worksheet,
  { startRow, startColumn, endRow, endColumn }: IRange,
  texts: Texts,
  read: ReadEntry,
): Record<number, Record<number, ICellData>> {
  const cells: Record<number, Record<number, ICellData>> = {};
  for (let row = startRow; row <= endRow; row++) {
    const line: Record<number, ICellData> = (cells[row] = {});
    const from = texts[(row - startRow) % texts.length] ?? [];
    for (let column = startColumn; column <= endColumn; column++) {
      const text = from[(column - startColumn) % Math.max(1, from.length)] ?? "";
      line[column] = enteredCell(text, sheet.getCellStyle(row, column)?.n?.pattern, read);
    }
  }
  return cells;
}

/** Rows and columns that a range needs beyond the edge of the sheet on the page. */
function missing(sheet: Worksheet, { endRow, endColumn }: IRange): { id: string; range: IRange }[] {
  const [rows, columns] = [sheet.getRowCount(), sheet.getColumnCount()];
  const all = { startRow: 0, endRow: Math.max(rows, endRow + 1) - 1, startColumn: 0, endColumn: columns - 1 };
  return [
    ...(endRow >= rows ? [{ id: "sheet.mutation.insert-row", range: { ...all, startRow: rows } }] : []),
    ...(endColumn >= columns
      ? [{ id: "sheet.mutation.insert-col", range: { ...all, startColumn: columns, endColumn } }]
      : []),
  ];
}
