// What the pane needs from the program around it. Each host (Excel, the desk, a test) implements it.
import type { PartStore } from "../instruments/keeper.js";
import type { Formulas } from "./ports/formulas-port.js";
import type { FunctionsPort } from "./ports/functions-port.js";
import type { Selection } from "./ports/selection-port.js";
import type { WholeWorkbook } from "./ports/workbook-port.js";
import type { Source } from "./source.js";

/** The user's files. */
export interface Files {
  /**
   * Offers a file for saving.
   *
   * @returns "shown" if this host does not let pages save files: nothing was offered, so the text has to be shown for
   * copying
   */
  readonly save: (name: string, text: string, type: string) => "saved" | "shown";
}

/** Everything around the pane. */
export interface Host extends WholeWorkbook {
  readonly parts: PartStore;
  readonly formulas: Formulas;
  readonly selection: Selection;
  readonly functions: FunctionsPort;
  readonly files: Files;
  /** Name, version and host, in a sentence. */
  readonly version: string;
  /** Address of the help pages, ending in "/". */
  readonly help: string;
  /** Another cell is selected, or the value of the selected one may have changed. */
  readonly selected: Source<void>;
  /** Someone else may have changed the instruments. */
  readonly edited: Source<void>;
}
