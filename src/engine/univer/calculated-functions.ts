import { natives } from "../native/natives.js";

const names = (list: string): readonly string[] => list.trim().split(/\s+/);

/**
 * Functions of the interpreter that take single numbers, with the fewest and most arguments. Arguments are read by our
 * code as Excel does; the interpreter does the mathematics.
 */
export const ofNumbersOnly: ReadonlyMap<string, readonly [fewest: number, most: number]> = new Map(
  [
    [1, 1, "ASINH FISHER FISHERINV GAMMALN NORM.S.INV NORMSDIST NORMSINV SQRTPI"],
    [2, 2, "EFFECT NOMINAL NORM.S.DIST"],
    [3, 3, "EXPON.DIST LOGINV LOGNORM.INV"],
    [3, 3, "CONFIDENCE CONFIDENCE.NORM LOGNORMDIST NORM.INV NORMINV POISSON POISSON.DIST SLN STANDARDIZE"],
    [4, 4, "BINOM.DIST BINOMDIST LOGNORM.DIST NORM.DIST NORMDIST"],
    [3, 5, "FV NPER PMT PV"],
    [4, 6, "IPMT PPMT"],
  ].flatMap(([fewest, most, list]) =>
    names(String(list)).map((name) => [name, [Number(fewest), Number(most)] as const] as const),
  ),
);

/** Functions of the interpreter that are used as they are. */
const asTheyAre = names(`AGGREGATE BYCOL BYROW CEILING.MATH CHOOSECOLS CHOOSEROWS COLUMN COLUMNS DROP EXPAND
  FLOOR.MATH INDEX INDIRECT IRR LAMBDA LET LINEST MAKEARRAY MAP MDETERM MINVERSE
  NOW OFFSET RAND RANDARRAY RANDBETWEEN
  RATE REDUCE ROW ROWS SCAN SUBTOTAL T.TEST TAKE TOCOL TODAY TOROW TREND TRIMMEAN TTEST WRAPCOLS
  WRAPROWS`);

/** Functions behind the operators; Excel has none of them as functions. */
const behindOperators = names("COMPARE CUBE DIVIDED MINUS MULTIPLY PLUS");

/**
 * Which functions are calculated: our own code, and those of the interpreter that are listed here. Everything else is
 * left to the spreadsheet program, because nobody has compared it with another one.
 */
class CalculatedFunctions {
  readonly #known: ReadonlySet<string>;

  /** @param natives the functions that our code calculates */
  constructor(natives: Iterable<string>) {
    this.#known = new Set(
      [...natives, ...ofNumbersOnly.keys(), ...asTheyAre].filter((name) => !behindOperators.includes(name)),
    );
  }

  get names(): readonly string[] {
    return [...this.#known].sort();
  }

  /** Whether a function is calculated here, as in Excel. @param name in capitals */
  knows(name: string): boolean {
    return this.#known.has(name);
  }

  /** Whether the interpreter needs the function at all: by name, or behind an operator. */
  isNeeded(name: string): boolean {
    return this.knows(name) || behindOperators.includes(name);
  }
}

export const calculated = new CalculatedFunctions(natives.map(({ name }) => name));
