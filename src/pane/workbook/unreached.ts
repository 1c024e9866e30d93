import type { CellAddress } from "../../cells/place.js";
import type { Notice } from "../parts/notices.js";
import type { OurFormula, Report } from "../ports/formulas-port.js";
import { formulaCount, addressKey } from "../parts/usage.js";

type Failed = Report["failed"][number];

/**
 * Result of work on cells as a notice.
 *
 * @param what such as "rewritten"
 */
export function reportNotice({ done, failed }: Report, what: string): Notice {
  const text = `${formulaCount(done)} ${what}.`;
  if (failed.length === 0) return { tone: "success", text };
  const cells = new Set(failed.map(addressKey)).size;
  return {
    tone: "warning",
    text: `${text} ${formulaCount(cells)} could not be reached and may show old results.`,
    details: failed.map(({ sheet, address, why }) => `${sheet} ${address}: ${why}`),
  };
}

/** Cells that could not be recalculated. Every report lists them until they have been. */
export class Unreached {
  readonly #cells = new Map<string, Failed>();

  get all(): readonly Failed[] {
    return [...this.#cells.values()];
  }

  /** Drops cells that no longer hold one of our formulas. */
  keepTo(formulas: readonly OurFormula[]): void {
    const there = new Set(formulas.map(addressKey));
    for (const key of this.#cells.keys()) if (!there.has(key)) this.#cells.delete(key);
  }

  took(tried: readonly CellAddress[], { failed }: Report): void {
    for (const cell of tried) this.#cells.delete(addressKey(cell));
    for (const cell of failed) this.#cells.set(addressKey(cell), cell);
  }
}
