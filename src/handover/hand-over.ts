import { asItIs } from "./as-it-is.js";
import { asLive } from "./live.js";
import type { BookToHandOver } from "./own-cells.js";
import { asValues, type HandedOver } from "./values.js";
import type { Way } from "./way.js";

const means: Record<Way, (given: BookToHandOver) => HandedOver> = {
  share: asItIs,
  values: asValues,
  live: asLive,
};

/** Prepares a workbook for handing over, in the way chosen. */
export const handedOver = (way: Way, given: BookToHandOver): HandedOver => means[way](given);
