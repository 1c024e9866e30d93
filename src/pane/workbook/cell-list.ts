import { html, nothing, type TemplateResult } from "lit";
import { cellCountText } from "./changed-table.js";
import type { CellActions } from "../parts/cell-actions.js";
import type { CellAddress } from "../../cells/place.js";

/** Cells listed one by one. */
const MOST_CELLS = 25;

/** A list of cells, each with a message and a link. Nothing if there are none. */
export function cellList(
  pane: CellActions,
  what: string,
  cells: readonly (CellAddress & { readonly why?: string })[],
): TemplateResult | typeof nothing {
  if (cells.length === 0) return nothing;
  const more = cells.length - MOST_CELLS;
  return html`<details class="notice warning">
    <summary>${what}: ${cellCountText(cells.length)}</summary>
    <ul>
      ${cells
        .slice(0, MOST_CELLS)
        .map(
          (cell) =>
            html`<li>
              <button class="quiet" @click=${() => void pane.showCell(cell)}>
                ${cell.sheet} ${cell.address}</button
              >${cell.why === undefined ? "" : `: ${cell.why}`}
            </li>`,
        )}
      ${more > 0 ? html`<li>… and ${more} more</li>` : nothing}
    </ul>
  </details>`;
}
