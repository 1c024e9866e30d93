import type { Kind } from "./schema.js";

/** The help page on taking a good reading with instruments of a kind, as the pane and the help itself lead to it. */
export const readingPage = (kind: Kind): string => `reading-${kind}.html`;
