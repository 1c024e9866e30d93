const names = (list: string): readonly string[] => list.split(/\s+/);

const notExcels = names(`ARRAY_CONSTRAIN AVERAGE.WEIGHTED EPOCHTODATE FLATTEN ISBETWEEN ISDATE
  ISEMAIL ISURL MARGINOFERROR NUMBERSTRING REGEXEXTRACT REGEXMATCH REGEXREPLACE ROUNDBANK TO_DATE`);

/** Univer calculates operators by these; Excel knows none of them as a function. */
export const behindOperators = names("COMPARE CUBE DIVIDED MINUS MULTIPLY PLUS");

const askForMoreThanValues = names("CELL FORMULATEXT IMAGE ISFORMULA SHEET SHEETS");

/**
 * EDATE of a month's last day runs into the next month; RANK.AVG knows no arrays; UNIQUE tells capitals apart; EXACT does
 * not take a blank for an empty text; DOLLAR ends in a blank; the others are only good to eight or nine digits.
 */
const inexact = names("EDATE RANK.AVG UNIQUE EXACT DOLLAR CONFIDENCE.T GAMMA T.DIST.2T T.DIST.RT TDIST");

/**
 * Functions that Univer has but that are not calculated here: those that Excel does not have, those that ask for more
 * than values, and those whose results were found to differ from Excel's.
 */
export const withheld: ReadonlySet<string> = new Set([
  ...notExcels,
  ...behindOperators,
  ...askForMoreThanValues,
  ...inexact,
]);
