import type { Kind } from "./schema.js";

/** File name of the help page on taking good readings, by kind of instrument. */
export const readingPage = (kind: Kind): string => `reading-${kind}.html`;
