import type { Token } from "@borgar/fx/xlsx";
import type { WrittenReference } from "./written-reference.js";

/**
 * A formula with everything resolved that depends on the workbook: no file prefixes, no defined names, no tables. A
 * token of type "range" holds the index of its reference instead of text.
 */
export interface Translation {
  readonly tokens: readonly Token[];
  readonly references: readonly WrittenReference[];
  /** Cells that it reads without a token for them, since it cannot be evaluated here. */
  readonly alsoReads: readonly WrittenReference[];
  /** Why the formula cannot be evaluated here; undefined if nothing prevents it. */
  readonly obstacle?: string;
}
