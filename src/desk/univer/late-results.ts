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
 * Keeps calculation results from overwriting entries made while it runs.
 *
 * Univer writes them to cells in the state in which it began: if a formula spilled into a cell that was edited since,
 * the entry was deleted, or the previous content came back. It also redraws a cell whose value has changed, even over
 * the content of the open editor.
 */
export function protectEntries({ univer }: UniverSheet): void {
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
    // When the editor closes, its cell is selected again and so refreshed.
    if (!bridge.isVisible().visible) refresh();
  };
}

/**
 * Only calculated values, and only for cells that have a formula now. Univer's results also include whole cells in
 * their previous state.
 */
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
