import { render } from "lit";
import { AboutScreen } from "./about.js";
import { frame, HEADING } from "./frame.js";
import { CellScreen } from "./cell/cell-screen.js";
import { FunctionList } from "./functions/function-list.js";
import { InstrumentList } from "./instruments/instrument-list.js";
import { Pane } from "./pane.js";
import type { Host } from "./ports.js";
import { WorkbookScreen } from "./workbook/workbook-screen.js";

/** Starts the pane in an element of a page. */
export function startPane(root: HTMLElement, host: Host): void {
  root.replaceChildren();
  let due = false;
  let movedOn = false;
  const pane = new Pane(host);
  const draw = (): void => {
    if (due) return;
    due = true;
    // Several things may change at once; the page is drawn once.
    queueMicrotask(() => {
      due = false;
      render(frame(pane), root);
      if (!movedOn) return;
      movedOn = false;
      window.scrollTo(0, 0);
      root.querySelector<HTMLElement>(`#${HEADING}`)?.focus();
    });
  };
  pane.changed.on(draw);
  pane.screens.moved.on(() => {
    movedOn = true;
    draw();
  });
  pane.start({
    Instruments: new InstrumentList(pane),
    Functions: new FunctionList(pane),
    Cell: new CellScreen(pane),
    Workbook: new WorkbookScreen(pane),
    About: new AboutScreen(pane),
  });
}
