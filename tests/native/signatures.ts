// What each function that is calculated here is asked, as random formulas know it. One word for each argument:
//   n number  i whole number  k small whole number, from 1  p share from 0 to 1  b truth  t text  d day  D a cell with a day  x anything
//   R range  N range or array with numbers  X range with anything  S sorted numbers  Y sorted texts  C criterion
//   "abc" one of these words, as text  =… as written; ? before what may be missing, * behind what may be repeated

const list = (text: string): readonly (readonly [string, string])[] =>
  text
    .trim()
    .split(/\n\s*/)
    .flatMap((line) => {
      const [names = "", ...signature] = line.split(":");
      return names.split(/\s+/).map((name) => [name.trim(), signature.join(":").trim()] as const);
    });

/** By name, as Excel shows it. */
export const signatures: ReadonlyMap<string, string> = new Map(
  list(`
  AND OR XOR: b x* X*
  NOT: b
  TRUE FALSE NA PI:
  IF: b x ?x
  IFS: b x b x
  SWITCH: x x x x x ?x
  IFERROR IFNA: x x
  ISBLANK ISNUMBER ISTEXT ISNONTEXT ISLOGICAL ISERROR ISERR ISNA ERROR.TYPE N T: x
  ISEVEN ISODD: n
  ABS SIGN SQRT EXP LN LOG10 SIN COS TAN ASIN ACOS ATAN SINH COSH TANH DEGREES RADIANS INT EVEN ODD: n
  LOG: n ?n
  ATAN2 QUOTIENT MOD MROUND CEILING FLOOR POWER: n n
  FACT: k
  COMBIN PERMUT: i k
  GCD LCM: i i*
  TRUNC: n ?k
  ROUND ROUNDUP ROUNDDOWN: n k
  SUM SUMSQ PRODUCT AVERAGE MAX MIN COUNT COUNTA AVERAGEA MAXA MINA: X* x*
  COUNTBLANK: R
  SUMPRODUCT: N N
  STDEV STDEV.S STDEVP STDEV.P VAR VAR.S VARP VAR.P STDEVA VARA STDEVPA VARPA MEDIAN MODE MODE.SNGL: X n*
  SKEW KURT DEVSQ AVEDEV GEOMEAN HARMEAN: N n*
  LARGE SMALL: X k
  PERCENTILE PERCENTILE.INC PERCENTILE.EXC: N p
  QUARTILE QUARTILE.INC QUARTILE.EXC: N k
  RANK RANK.EQ: n N ?b
  SLOPE INTERCEPT CORREL PEARSON RSQ STEYX COVAR COVARIANCE.P COVARIANCE.S SUMX2MY2 SUMX2PY2 SUMXMY2: N N
  FORECAST FORECAST.LINEAR: n N N
  COUNTIF: R C
  COUNTIFS: R C R C
  SUMIF AVERAGEIF: R C ?R
  SUMIFS AVERAGEIFS MINIFS MAXIFS: R R C R C
  MATCH: n S ?=1
  VLOOKUP: n T k ?b
  HLOOKUP: n H =2 ?b
  LOOKUP: n S ?S
  XLOOKUP: x X X ?x
  XMATCH: x X
  CHOOSE: k x x x
  INDEX: X k ?=1
  CONCATENATE CONCAT: t x*
  TEXTJOIN: t b X* x*
  LEN UPPER LOWER PROPER TRIM CLEAN: t
  LEFT RIGHT: t ?k
  MID: t k k
  EXACT: t t
  REPT: t k
  REPLACE: t k k t
  SUBSTITUTE: t t t ?k
  FIND SEARCH: t t ?k
  CHAR UNICHAR: =65
  CODE UNICODE: t
  VALUE: x
  TEXTBEFORE TEXTAFTER: t t
  FIXED: n ?k ?b
  TEXT: n "0.00|0|0.0%|#,##0.0|0.000|yyyy-mm-dd|hh:mm"
  DATE: =2024 k i
  YEAR MONTH DAY WEEKDAY WEEKNUM ISOWEEKNUM: d
  HOUR MINUTE SECOND: d
  TIME: k i i
  EDATE EOMONTH: D i
  DAYS: d d
  DAYS360: d d ?b
  DATEDIF: d d "d|m|y|ym"
  NETWORKDAYS: D D
  NETWORKDAYS.INTL: D D ?k
  WORKDAY: D i
  WORKDAY.INTL: D i ?k
  YEARFRAC: d d ?k
  TRANSPOSE SORT UNIQUE: X
  SORTBY: X S
  FILTER: L B
  SEQUENCE: k ?k ?n ?n
  VSTACK HSTACK: X X
  MMULT: =Data!A2:B3 =Data!A2:B3
  MDETERM MINVERSE: =Data!A2:B3
  FREQUENCY: N N
  TAKE DROP: X k
  CHOOSECOLS CHOOSEROWS: X =1
  TOCOL TOROW: X
  WRAPROWS WRAPCOLS: L k
  EXPAND: X =3 =2 ?n
  ROW COLUMN ROWS COLUMNS: R
  ADDRESS: k k
  TYPE: x
  HYPERLINK: t ?x
  OFFSET: =Data!A2 k =1
  INDIRECT: "Data!A2|Data!B3|Data!F4"
  SUBTOTAL: =9 N
  AGGREGATE: =9 =6 N
  CEILING.MATH FLOOR.MATH: n n
  CONVERT: n "C|F|kg|lbm|l|gal" "C|F|kg|lbm|l|gal"
  LINEST TREND: =Data!A2:A9 =Data!H2:H9
  TRIMMEAN: N p
  T.TEST TTEST: N N =2 =2
  NPV: n N
  IRR: ={-100,30,40,50}
  RATE: =12 n n
  ASINH FISHER FISHERINV GAMMALN NORM.S.INV NORMSDIST NORMSINV SQRTPI: n
  EFFECT NOMINAL: p k
  NORM.S.DIST: n b
  EXPON.DIST: n n b
  LOGINV LOGNORM.INV NORM.INV NORMINV: p n n
  CONFIDENCE CONFIDENCE.NORM: p n k
  LOGNORMDIST STANDARDIZE: n n n
  POISSON POISSON.DIST: k n b
  SLN: n n k
  BINOM.DIST BINOMDIST: k i p b
  LOGNORM.DIST NORM.DIST NORMDIST: n n n b
  FV PV PMT NPER: p k n ?n ?b
  IPMT PPMT: p k i n ?n
  `),
);

/** Functions that random formulas cannot compare: new values each time, or pieces of the language, tested by themselves. */
export const notCompared: ReadonlySet<string> = new Set(
  "NOW TODAY RAND RANDBETWEEN RANDARRAY LET LAMBDA MAP REDUCE SCAN BYROW BYCOL MAKEARRAY".split(" "),
);

/** Names that files write with a prefix. */
const newer = new Set(
  `AGGREGATE BINOM.DIST CEILING.MATH CHISQ.DIST CHISQ.DIST.RT CHISQ.INV CHISQ.INV.RT CHOOSECOLS CHOOSEROWS CONCAT CONFIDENCE.NORM
  COVARIANCE.P COVARIANCE.S DAYS DROP EXPAND EXPON.DIST F.DIST F.DIST.RT F.INV F.INV.RT FLOOR.MATH FORECAST.LINEAR HSTACK IFNA IFS
  ISOWEEKNUM LOGNORM.DIST LOGNORM.INV MAXIFS MINIFS MODE.SNGL NORM.DIST NORM.INV NORM.S.DIST NORM.S.INV PERCENTILE.EXC
  PERCENTILE.INC PERCENTRANK.EXC PERCENTRANK.INC POISSON.DIST QUARTILE.EXC QUARTILE.INC RANK.EQ SEQUENCE SORTBY STDEV.P STDEV.S
  SWITCH T.DIST T.INV T.INV.2T T.TEST TAKE TEXTAFTER TEXTBEFORE TEXTJOIN TOCOL TOROW UNICHAR UNICODE UNIQUE VAR.P VAR.S VSTACK
  WEIBULL.DIST WRAPCOLS WRAPROWS XLOOKUP XMATCH XOR`.split(/\s+/),
);

export function asInFile(name: string): string {
  if (name === "FILTER" || name === "SORT") return `_xlfn._xlws.${name}`;
  return newer.has(name) ? `_xlfn.${name}` : name;
}

/** A formula as a user types it, without the prefixes of files. */
export function asTyped(formula: string): string {
  return formula.replaceAll("_xlfn._xlws.", "").replaceAll("_xlfn.", "");
}
