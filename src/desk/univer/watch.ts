import { ICommandService, type ICellData, type Nullable } from "@univerjs/core";
import { CellAlertManagerService, CellAlertType, HoverManagerService } from "@univerjs/preset-sheets-core";
import { Emitter, type Source } from "../../pane/source.js";
import type { Sheet } from "./sheet.js";
import { fileStyle } from "./univer-names.js";
import { isMerging, isViewChange, refusalOf } from "./unsaved-commands.js";

/** Events of the sheet. */
export interface SheetEvents {
  /** A cell was edited. */
  readonly edited: Source<void>;
  /** Formulas have new results. */
  readonly calculated: Source<void>;
  /** Another cell is selected. */
  readonly selected: Source<void>;
  /** A command was refused. */
  readonly refused: Source<void>;
  /** A requested or finished change will not be saved: a sentence. */
  readonly unsaved: Source<string>;
}

interface Values {
  readonly cellValue?: Readonly<Record<number, Readonly<Record<number, Nullable<ICellData>>> | undefined>>;
}

const viewNotSaved =
  "Widths, heights, hidden rows and frozen panes can be changed here to see better; they are not saved.";
const mergeNotSaved =
  "Merged cells stay as they are here: the desk saves values and formulas. Merge them in a spreadsheet program.";
const formatNotSaved =
  "A new format came with what was entered. It shows here but is not saved; the value is.";

/** Fires events for edits and selections, and refuses commands whose effect could not be saved. */
export function watch(sheet: Sheet): SheetEvents {
  const [edited, calculated, selected, refused] = [
    new Emitter(),
    new Emitter(),
    new Emitter(),
    new Emitter(),
  ];
  const unsaved = new Emitter<string>();
  const { api, univer } = sheet.engine;
  const commands = univer.__getInjector().get<ICommandService>(ICommandService);
  api.addEvent(api.Event.BeforeCommandExecute, (event) => {
    if (isMerging(event.id)) {
      const merging = event.params as { ranges: readonly unknown[] };
      if (merging.ranges.length === 0) return;
      // The values that come with it are still pasted.
      merging.ranges = [];
      unsaved.emit(mergeNotSaved);
      return;
    }
    const refusal = refusalOf(event.id);
    if (refusal === undefined) return;
    event.cancel = true;
    refused.emit();
    unsaved.emit(refusal);
  });
  commands.onCommandExecuted(({ id, params }, options) => {
    if (id === "sheet.operation.set-selections" || id === "sheet.operation.set-worksheet-active")
      selected.emit();
    else if (isViewChange(id)) unsaved.emit(viewNotSaved);
    else if (id === "sheet.mutation.set-range-values") {
      // Results of formulas are written by the same mutation, but only locally.
      if (options?.onlyLocal === true) calculated.emit();
      else {
        edited.emit();
        if (hasNewFormat(params as Values)) unsaved.emit(formatNotSaved);
      }
    }
  });
  return { edited, calculated, selected, refused, unsaved };
}

/** Formats from the file are referred to by their id, and are saved. */
function hasNewFormat({ cellValue = {} }: Values): boolean {
  return Object.values(cellValue).some((line) =>
    Object.values(line ?? {}).some((cell) => {
      const style = cell?.s;
      return (
        style !== undefined &&
        style !== null &&
        !(typeof style === "string" && fileStyle(style) !== undefined)
      );
    }),
  );
}

/** Replaces Univer's explanation of an error by our functions' message when the pointer rests on the cell. */
export function explainErrors(sheet: Sheet, explain: (place: CellOfSheet) => string | undefined): void {
  const alerts = sheet.engine.univer.__getInjector().get(CellAlertManagerService);
  const show = alerts.showAlert.bind(alerts);
  alerts.showAlert = (alert) => {
    const { subUnitId, row, col } = alert.location;
    const sentence = explain({ sheet: subUnitId, row, column: col });
    show(
      sentence === undefined
        ? alert
        : { ...alert, title: "Gylesheet", message: sentence, width: 300, height: 120 },
    );
  };
}

const KEPT = "gylesheet-kept";

/** How long the pointer rests on a cell before an explanation appears, in milliseconds. */
const HOVER_DELAY_MS = 150;

/** Explains the value of a cell without an error when the pointer rests on it. */
export function explainKept(sheet: Sheet, explain: (place: CellOfSheet) => string | undefined): void {
  const injector = sheet.engine.univer.__getInjector();
  const alerts = injector.get(CellAlertManagerService);
  let timer: ReturnType<typeof setTimeout> | undefined;
  injector.get(HoverManagerService).currentCell$.subscribe((hovered) => {
    clearTimeout(timer);
    alerts.removeAlert(KEPT);
    if (!hovered) return;
    const { location } = hovered;
    timer = setTimeout(() => {
      const message = explain({ sheet: location.subUnitId, row: location.row, column: location.col });
      if (message !== undefined)
        alerts.showAlert({
          type: CellAlertType.INFO,
          title: "Gylesheet",
          message,
          location,
          width: 300,
          height: 120,
          key: KEPT,
        });
    }, HOVER_DELAY_MS);
  });
}

/** A cell with Univer's id of its sheet. */
export interface CellOfSheet {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}
