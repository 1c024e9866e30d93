import {
  ICommandService,
  IUniverInstanceService,
  type ICellData,
  type Nullable,
  type Workbook,
} from "@univerjs/core";
import { IEditorBridgeService } from "@univerjs/preset-sheets-core";
import type { UniverSheet } from "./univer.js";

type Cells = Record<number, Record<number, Nullable<ICellData>>>;

interface Results {
  readonly unitId: string;
  readonly subUnitId: string;
  cellValue?: Cells;
}

/**
 * Has results of a calculation never take the place of what someone enters while it runs.
 *
 * Univer writes them into cells as these were when it began: where a formula was to fill cells and one of them has been typed into
 * since, the entry was deleted, or what stood there before came back. And it shows a cell anew whose value has changed, also in the
 * place of what stands in the editor.
 */
export function keepEntriesFromResults({ univer }: UniverSheet): void {
  const injector = univer.__getInjector();
  const instances = injector.get<IUniverInstanceService>(IUniverInstanceService);
  injector.get<ICommandService>(ICommandService).beforeCommandExecuted(({ params }, options) => {
    if (options?.["applyFormulaCalculationResult"] !== true) return;
    const results = params as Results;
    const sheet = instances.getUnit<Workbook>(results.unitId)?.getSheetBySheetId(results.subUnitId);
    results.cellValue = resultsOnly(results.cellValue ?? {}, (row, column) => {
      const there = sheet?.getCellRaw(row, column);
      return Boolean(there?.f) || Boolean(there?.si);
    });
  });

  const bridge = injector.get<IEditorBridgeService>(IEditorBridgeService);
  const refresh = bridge.refreshEditCellState.bind(bridge);
  bridge.refreshEditCellState = () => {
    // Once the editor is closed its cell is selected anew, and so read again.
    if (!bridge.isVisible().visible) refresh();
  };
}

/** Only what is calculated, and only for cells that have a formula now. Among Univer's results there are also whole cells, as they were. */
export function resultsOnly(cells: Cells, isFormula: (row: number, column: number) => boolean): Cells {
  const kept: Cells = {};
  for (const [row, line] of Object.entries(cells))
    for (const [column, cell] of Object.entries(line)) {
      const isResult = cell && !cell.f && !cell.si;
      if (isResult && isFormula(Number(row), Number(column)))
        (kept[Number(row)] ??= {})[Number(column)] = cell;
    }
  return kept;
}
