import {
  DOCS_NORMAL_EDITOR_UNIT_ID_KEY,
  IUniverInstanceService,
  type DocumentDataModel,
} from "@univerjs/core";
import { AFTER_CELL_EDIT, IEditorBridgeService, SheetInterceptorService } from "@univerjs/preset-sheets-core";
import { enteredCell, type ReadEntry } from "./entered-cell.js";
import type { UniverSheet } from "../univer/univer.js";

/** Runs before Univer's own parsing of numbers and dates, which is then skipped. */
const FIRST = 1000;

/**
 * Writes typed entries to cells. Univer's own parsing splits a number in a formula from the text after it, so
 * =IF(1.50>1,"yes","no") becomes IF(1.5>1,""ye",""n"), and it reads dates and numbers as in the United States.
 */
export function interpretEntries({ univer }: UniverSheet, reader: () => ReadEntry): void {
  const injector = univer.__getInjector();
  const interceptors = injector.get(SheetInterceptorService);
  const instances = injector.get<IUniverInstanceService>(IUniverInstanceService);
  const bridge = injector.get<IEditorBridgeService>(IEditorBridgeService);
  interceptors.writeCellInterceptor.intercept(AFTER_CELL_EDIT, {
    priority: FIRST,
    handler: (cell, { unitId, subUnitId, row, col, worksheet }, next) => {
      const edited = bridge.getEditCellState();
      const isEdited =
        edited?.unitId === unitId &&
        edited.sheetId === subUnitId &&
        edited.row === row &&
        edited.column === col;
      const editor = instances.getUnit<DocumentDataModel>(DOCS_NORMAL_EDITOR_UNIT_ID_KEY);
      const typed = editor && isEdited ? textOf(editor) : undefined;
      if (!cell || typed === undefined) return next(cell);
      const read = reader();
      const format = worksheet.getCellStyle(row, col)?.n?.pattern;
      // Parts of the text are formatted: it stays a rich-text document.
      if (cell.p && read(typed).value === typed) return cell;
      // Univer includes the formatting of the editor's text, which nobody asked for.
      const s = worksheet.getCellRaw(row, col)?.s;
      return { ...cell, s, ...enteredCell(typed, format, read) };
    },
  });
}

/** Without the line break that ends every document; line breaks as in files. */
function textOf(editor: DocumentDataModel): string | undefined {
  return editor.getBody()?.dataStream.replace(/\r\n$/, "").replaceAll("\r", "\n");
}
