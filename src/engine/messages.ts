/** All sentences that the engine shows to users. */

export const functionMissing = (name: string): string =>
  `${name} is declared, but the functions bundle does not define it.`;

export const functionBroke = (name: string, thrown: unknown): string =>
  `${name} stopped unexpectedly: ${thrown instanceof Error ? thrown.message : String(thrown)}`;

export const unreadable = (text: string): string => `"${text}" could not be read.`;

export const calledByName = (name: string): string =>
  `The formula calls "${name}", a LAMBDA of its own, by its name, which is not done here.`;

export const functionAsValue = (name: string): string =>
  `The formula hands ${name} over without calling it, which is not done here.`;

export const takesOne = "The formula takes one value out of a range with @, which is not done here.";

export const externalReference = (text: string): string => `"${text}" points into another workbook.`;

export const sheetSpan = (text: string): string => `"${text}" runs through several sheets.`;

export const trimmedRange = (text: string): string => `"${text}" trims its range, which cannot be done here.`;

export const unknownTable = (name: string): string => `The table "${name}" is not in this workbook.`;

export const unknownName = (name: string): string => `The name "${name}" is not defined in this workbook.`;

export const endlessName = (name: string): string => `The name "${name}" refers to itself.`;

export const unknownOwnFunction = (name: string): string => `There is no function ${name}.`;

export const unknownFunction = (name: string): string => `The function ${name} cannot be calculated here.`;

export const spillBlocked = (what: string): string => `The result has no room: ${what} is in the way.`;

export const spillTooLarge = "The result has no room: it would reach past the end of the sheet.";

export const tooManyCells = (most: number): string => `it reads more than ${most / 1e6} million cells`;

export const inCycle =
  "The formula is part of a circular reference, which is left to the spreadsheet program.";

export const differsFromStored = (fresh: string, stored: string): string =>
  `The formula comes to ${fresh} here, but ${stored} is stored. The value calculated here was used.`;

export const differsUnsure = (fresh: string, stored: string): string =>
  `The formula comes to ${fresh} here, but ${stored} is stored.`;

export const leftAsItWas = (reason: string): string => `${reason} The stored value was left as it was.`;

export const storedValueUsed = (reason: string): string => `${reason} The stored value was used.`;

export const instrumentMissing = (names: readonly string[]): string =>
  names.length === 1
    ? `It names the instrument "${names.join()}", which is not in this workbook.`
    : `It names the instruments ${names.map((name) => `"${name}"`).join(" and ")}, which are not in this workbook.`;

/** Why the engine's result for a formula is not used. */
export const notReproduced = (fresh: string, stored: string): string =>
  `The stored cells come to ${fresh} here, but ${stored} is stored.`;

export const mixedUnsure = (fresh: string, stored: string): string =>
  `The formula does more than call ours, and the stored cells come to ${fresh} here, but ${stored} is stored.`;

export const readsClock =
  "The formula asks for the time or for chance, so it gives another result each time.";

export const languageUnsure =
  "Its text depends on the language of the spreadsheet program, and the stored one does not tell which that is.";

export const dependsOnKept = (cell: string): string =>
  `The formula depends on ${cell}, which was left as it was.`;

export const circular = (cell: string): string =>
  `The formula is part of a circular reference through ${cell}, which is left to the spreadsheet program.`;

export const placesUnsure = (name: string): string =>
  `The formula finds its cells with ${name} in a way that is not followed here.`;

export const noReason = (error: string): string =>
  `The formula comes to ${error} here, and nothing it reads accounts for that.`;

export const unsettled = "The result changes each time it is calculated.";

export const datesSince1904 = "Dates in this workbook count from 1904, which cannot be calculated with here.";

export const severalValues =
  "The formula takes one value out of a range by the row or column it stands in, which is not done here.";

export const cannotCalculate = (error?: unknown): string =>
  error instanceof Error
    ? `The formula cannot be calculated here: ${error.message}.`
    : "The formula cannot be calculated here.";

export const unionOrIntersection = "The formula joins or intersects ranges, which is not done here.";
