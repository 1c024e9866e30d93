import type { CellPlace } from "../ports.js";

/** What a list of cells asks of the pane it stands in. */
export interface CellActions {
  showCell(cell: CellPlace): Promise<void>;
  saveFile(name: string, text: string, type: string): void;
}
