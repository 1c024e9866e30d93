import type { Token } from "@borgar/fx/xlsx";
import type { WrittenReference } from "./written-reference.js";

/**
 * A formula with everything resolved that only the workbook can tell: no file prefixes, no defined names, no tables.
 * A token of type "range" holds, instead of text, the index of its reference.
 */
export interface Translation {
  readonly tokens: readonly Token[];
  readonly references: readonly WrittenReference[];
  /** Cells that it reads though no token stands for them, since it cannot be evaluated here. */
  readonly alsoReads: readonly WrittenReference[];
  /** Why the formula cannot be evaluated here; undefined when nothing stands in the way. */
  readonly obstacle?: string;
}
