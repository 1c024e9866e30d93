import type { CellAddress } from "../../cells/place.js";

/** What a list of cells needs from its pane. */
export interface CellActions {
  showCell(cell: CellAddress): Promise<void>;
  saveFile(name: string, text: string, type: string): void;
}
