import {
  Direction,
  ICommandService,
  IUniverInstanceService,
  Rectangle,
  UniverInstanceType,
  type IRange,
  type Workbook,
  type Worksheet,
} from "@univerjs/core";
import { KeyCode, SheetsSelectionsService } from "@univerjs/preset-sheets-core";
import { selectionOf } from "./selection-of.js";
import type { UniverSheet } from "../univer/univer.js";

const ENTER_OR_TAB = "sheet.command.move-selection-enter-tab";
const ARROW = "sheet.command.move-selection";
const SELECT = "sheet.operation.set-selections";

interface Move {
  readonly keycode?: KeyCode;
  readonly direction: Direction;
  readonly jumpOver?: number;
  /** "formula-editor" if an arrow key picks a cell for a formula. */
  readonly extra?: string;
}

/** The column where a series of Tabs began, and the current cell. */
interface TabSeries {
  readonly sheet: Worksheet;
  readonly column: number;
  readonly now: IRange;
}

/**
 * Enter moves below the cell where a series of Tabs began, as long as only Tab has moved on from there. Univer
 * remembers that cell whatever is selected meanwhile: after a click elsewhere Enter went back to the old row, and the
 * next entry overwrote readings. At the edge of the sheet the selection stays, where Univer wraps around to the other
 * end.
 *
 * Univer handles selections of several cells, within which Enter and Tab cycle.
 */
export function handleEnterAndTab({ univer, api }: UniverSheet): void {
  const injector = univer.__getInjector();
  const commands = injector.get<ICommandService>(ICommandService);
  const instances = injector.get<IUniverInstanceService>(IUniverInstanceService);
  const selections = injector.get(SheetsSelectionsService);
  let series: TabSeries | undefined;

  const goTo = (sheet: Worksheet, cell: IRange): void => {
    const place = { unitId: sheet.getUnitId(), subUnitId: sheet.getSheetId() };
    commands.syncExecuteCommand(SELECT, { ...place, selections: [selectionOf(sheet, cell)], reveal: true });
  };

  const goOn = (sheet: Worksheet, from: IRange, { keycode, direction }: Move): void => {
    const begun = series?.sheet === sheet && Rectangle.equals(series.now, from) ? series : undefined;
    series = undefined;
    if (keycode === KeyCode.TAB) {
      const to = nextCell(sheet, from, direction);
      if (to) goTo(sheet, to);
      series = { sheet, column: begun?.column ?? from.startColumn, now: to ?? from };
    } else {
      const column = begun?.column ?? from.startColumn;
      const to = nextCell(sheet, { ...from, startColumn: column, endColumn: column }, direction);
      if (to) goTo(sheet, to);
    }
  };

  api.addEvent(api.Event.BeforeCommandExecute, (event) => {
    if (event.id !== ENTER_OR_TAB && event.id !== ARROW) return;
    const move = event.params as Move;
    const all = selections.getCurrentSelections();
    const [{ range, primary } = {}] = all;
    const sheet = instances.getCurrentUnitOfType<Workbook>(UniverInstanceType.UNIVER_SHEET)?.getActiveSheet();
    if (!sheet || !range || !primary || move.extra !== undefined) return;
    if (event.id === ARROW) event.cancel = !move.jumpOver && !nextCell(sheet, primary, move.direction);
    else if (all.length === 1 && Rectangle.equals(range, primary)) {
      event.cancel = true;
      goOn(sheet, range, move);
    }
  });
  // Any other selection ends the series.
  commands.onCommandExecuted(({ id, params }) => {
    const { selections: [selected] = [] } = (id === SELECT ? params : {}) as {
      selections?: { range: IRange }[];
    };
    if (selected && series && !Rectangle.equals(selected.range, series.now)) series = undefined;
  });
}

/** The next visible cell or merged range; undefined at the edge of the sheet. */
function nextCell(sheet: Worksheet, from: IRange, direction: Direction): IRange | undefined {
  const isDown = direction === Direction.DOWN || direction === Direction.UP;
  const step = direction === Direction.DOWN || direction === Direction.RIGHT ? 1 : -1;
  const [first, last] = isDown ? [from.startRow, from.endRow] : [from.startColumn, from.endColumn];
  const count = isDown ? sheet.getRowCount() : sheet.getColumnCount();
  const isSeen = (line: number): boolean => (isDown ? sheet.getRowVisible(line) : sheet.getColVisible(line));
  let line = (step > 0 ? last : first) + step;
  while (line >= 0 && line < count && !isSeen(line)) line += step;
  if (line < 0 || line >= count) return undefined;
  const [row, column] = isDown ? [line, from.startColumn] : [from.startRow, line];
  return (
    sheet.getMergedCell(row, column) ?? { startRow: row, endRow: row, startColumn: column, endColumn: column }
  );
}
