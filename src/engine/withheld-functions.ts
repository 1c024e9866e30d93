const names = (list: string): readonly string[] => list.split(/\s+/);

const notExcels =
  names(`ARRAY_CONSTRAIN AVERAGE.WEIGHTED COMPARE CUBE DIVIDED EPOCHTODATE FLATTEN ISBETWEEN ISDATE
  ISEMAIL ISURL MARGINOFERROR MINUS MULTIPLY NUMBERSTRING PLUS REGEXEXTRACT REGEXMATCH REGEXREPLACE ROUNDBANK TO_DATE`);

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
export const withheld: ReadonlySet<string> = new Set([...notExcels, ...askForMoreThanValues, ...inexact]);
