// What the pane asks of the program around it. Each host (Excel, the desk, a test) brings its own.
import type { PartStore } from "../instruments/keeper.js";
import type { Formulas } from "./ports/formulas-port.js";
import type { FunctionsPort } from "./ports/functions-port.js";
import type { Selection } from "./ports/selection-port.js";
import type { WholeWorkbook } from "./ports/workbook-port.js";
import type { Source } from "./source.js";

/** Files of the user's. */
export interface Files {
  /**
   * Offers a file for saving.
   *
   * @returns "shown" where this host lets no page save files: nothing was offered, so the text has to be shown for copying
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
  /** Where the help pages are, ending in "/". */
  readonly help: string;
  /** Another cell is selected, or the selected one may show something else. */
  readonly selected: Source<void>;
  /** Someone else may have changed the instruments. */
  readonly edited: Source<void>;
}
