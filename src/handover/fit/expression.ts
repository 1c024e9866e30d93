/** Coefficients of a polynomial, which a formula takes from a sheet. */
export interface CoefficientBlock {
  /** What the polynomial gives. */
  readonly title: string;
  /** Largest error that was found, in the unit of what it gives. */
  readonly worst: number;
  /** What is raised to the powers, as text: first that of the columns, then that of the rows. */
  readonly variables: readonly string[];
  /** A row for each power of the second variable, a column for each power of the first. */
  readonly rows: readonly (readonly number[])[];
}

/** Where the blocks of a formula lie, and how its lists do. */
export interface Places {
  /** Reference to a block; one of a single row may stand upright. */
  readonly block: (block: CoefficientBlock, upright: boolean) => string;
  /** Whether the lists of the formula are columns. */
  readonly listsGoDown: boolean;
}

type Write = (inputs: readonly string[], places: Places) => string;

/**
 * A piece of an ordinary spreadsheet formula. It can be written out and evaluated here, so what is measured is what is
 * written.
 */
export interface Expression {
  /** @param inputs text for each input: a cell, a number or a calculation, safe beside any operator */
  readonly write: Write;
  readonly at: (inputs: readonly number[]) => number;
  /** The array whose sum it is, for a list as input: a larger sum can take that in. */
  readonly terms?: Write;
}

/** A condition on the inputs. */
export interface InputCondition {
  readonly write: Write;
  readonly holds: (inputs: readonly number[]) => boolean;
}

/** A number as written in formulas, in parentheses if its sign would meet an operator. */
export function numberText(value: number): string {
  const text = String(value).replace("e", "E");
  return value < 0 ? `(${text})` : text;
}

export const input = (i: number): Expression => ({
  write: (inputs) => inputs[i] ?? "",
  at: (inputs) => inputs[i] ?? NaN,
});

export const constant = (value: number): Expression => ({
  write: () => numberText(value),
  at: () => value,
});

/** Substitutes expressions for the inputs of another. */
export const substituted = (outer: Expression, inner: readonly Expression[]): Expression => {
  const { terms } = outer;
  return {
    write: (inputs, places) => outer.write(written(inner, inputs, places), places),
    at: (inputs) => outer.at(inner.map((each) => each.at(inputs))),
    ...(terms && { terms: (inputs, places) => terms(written(inner, inputs, places), places) }),
  };
};

const written = (inner: readonly Expression[], inputs: readonly string[], places: Places): string[] =>
  inner.map((each) => each.write(inputs, places));

type Operator = "+" | "-" | "*" | "/";

const operations: Record<Operator, (a: number, b: number) => number> = {
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => a / b,
};

export const combined = (a: Expression, operator: Operator, b: Expression): Expression => ({
  write: (inputs, places) => `(${a.write(inputs, places)}${operator}${b.write(inputs, places)})`,
  at: (inputs) => operations[operator](a.at(inputs), b.at(inputs)),
});

/**
 * A gravity as people write it: 1046 is 1.046. It uses no spreadsheet function, so it works for ranges too. What is
 * neither is out of range either way, so the bound may be short.
 */
export const gravityAsWritten = (x: Expression): Expression => ({
  write: (inputs, places) => `(${x.write(inputs, places)}/1000^(${x.write(inputs, places)}>9))`,
  at: (inputs) => {
    const value = x.at(inputs);
    return value / (value > 9 ? 1000 : 1);
  },
});

/** Text without the parentheses around all of it. */
function bare(text: string): string {
  const plain = unquoted(text);
  if (!plain.startsWith("(")) return text;
  let depth = 0;
  for (let i = 0; i < plain.length; i++) {
    if (plain[i] === "(") depth++;
    else if (plain[i] === ")") depth--;
    if (depth === 0) return i === plain.length - 1 ? text.slice(1, -1) : text;
  }
  return text;
}

/** Text as a factor: without parentheses around it if it is itself a product. */
export function factorText(text: string): string {
  const inner = bare(text);
  let outer = unquoted(inner);
  for (let before = ""; before !== outer;) {
    before = outer;
    outer = outer.replace(/\([^()]*\)/g, "");
  }
  return /[-+<>=&]/.test(outer) ? text : inner;
}

/** Text with what stands in quotes blotted out: sheets' names may hold anything. */
const unquoted = (text: string): string =>
  text.replace(/'[^']*'|"[^"]*"/g, (part) => "x".repeat(part.length));

/** Adds a term to a sum: "(-2)" needs no plus. */
const plus = (text: string): string => (/^\(-[\d.E+-]+\)$/.test(text) ? text.slice(1, -1) : `+${text}`);

export const addedTerm = (value: number): string => plus(numberText(value));

export const atLeast = (a: Expression, b: Expression): InputCondition => ({
  write: (inputs, places) => `${bare(a.write(inputs, places))}>=${bare(b.write(inputs, places))}`,
  holds: (inputs) => a.at(inputs) >= b.at(inputs),
});

/** Texts longer than this are written once rather than twice, at the price of a less plain condition. */
const LONG = 12;

/** From one bound to another, both included. */
export const between = (x: Expression, min: number, max: number): InputCondition => {
  const middle = Number(((min + max) / 2).toPrecision(7));
  // A little more than half the width, so that rounding leaves both bounds in.
  const half = Number((Math.max(max - middle, middle - min) * (1 + 1e-6)).toPrecision(7));
  return {
    write: (inputs, places) => {
      const text = bare(x.write(inputs, places));
      return text.length > LONG
        ? `ABS(${text}${addedTerm(-middle)})<=${numberText(half)}`
        : `${text}>=${numberText(min)},${numberText(max)}>=${text}`;
    },
    holds: (inputs) => Math.abs(x.at(inputs) - middle) <= half,
  };
};

export const differsFrom = (a: Expression, b: Expression): InputCondition => ({
  write: (inputs, places) => `${bare(a.write(inputs, places))}<>${bare(b.write(inputs, places))}`,
  holds: (inputs) => a.at(inputs) !== b.at(inputs),
});

export const above = (a: Expression, b: Expression): InputCondition => ({
  write: (inputs, places) => `${bare(a.write(inputs, places))}>${bare(b.write(inputs, places))}`,
  holds: (inputs) => a.at(inputs) > b.at(inputs),
});

/** Sum of products over a list of cells. Evaluated here it is that of a single line. */
export const summed = (amounts: Expression, each: Expression): Expression => ({
  write: (inputs, places) =>
    `SUMPRODUCT(${amounts.write(inputs, places)}*${(each.terms ?? each.write)(inputs, places)})`,
  at: (inputs) => amounts.at(inputs) * each.at(inputs),
});

/** Substitutes expressions for the inputs of a condition. */
export const conditionOn = (outer: InputCondition, inner: readonly Expression[]): InputCondition => ({
  write: (inputs, places) => outer.write(written(inner, inputs, places), places),
  holds: (inputs) => outer.holds(inner.map((each) => each.at(inputs))),
});

/** One expression below a bound of x, another from there on. */
export const piecewise = (
  x: Expression,
  bound: number,
  below: Expression,
  above: Expression,
): Expression => ({
  write: (inputs, places) =>
    `IF(${[
      `${bare(x.write(inputs, places))}<${numberText(bound)}`,
      bare(below.write(inputs, places)),
      bare(above.write(inputs, places)),
    ].join(",")})`,
  at: (inputs) => (x.at(inputs) < bound ? below : above).at(inputs),
});

/** The least or the greatest of two. */
export const extreme = (side: "MIN" | "MAX", a: Expression, b: Expression): Expression => ({
  write: (inputs, places) => `${side}(${bare(a.write(inputs, places))},${bare(b.write(inputs, places))})`,
  at: (inputs) => (side === "MIN" ? Math.min : Math.max)(a.at(inputs), b.at(inputs)),
});

/** Piecewise linear through the corners, with slope 1 outside of them. */
export function piecewiseLinear(
  x: Expression,
  corners: readonly number[],
  values: readonly number[],
): Expression {
  const slopes = corners.slice(1).map((corner, i) => {
    const [from, to] = [values[i] ?? NaN, values[i + 1] ?? NaN];
    return (to - from) / (corner - (corners[i] ?? NaN));
  });
  const bends = corners.map((_, i) => (slopes[i] ?? 1) - (slopes[i - 1] ?? 1));
  const start = (values[0] ?? 0) - (corners[0] ?? 0);
  return {
    write: (inputs, places) => {
      const text = x.write(inputs, places);
      const terms = bends.map((bend, i) =>
        bend === 0 ? "" : plus(`${numberText(bend)}*MAX(0,${text}${addedTerm(-(corners[i] ?? 0))})`),
      );
      return `(${text}${addedTerm(start)}${terms.join("")})`;
    },
    at: (inputs) => {
      const value = x.at(inputs);
      return bends.reduce(
        (sum, bend, i) => sum + bend * Math.max(0, value - (corners[i] ?? 0)),
        value + start,
      );
    },
  };
}

/** Whether the cell of an optional argument is empty. As a blank may arrive as 0, a 0 counts as empty. */
export const leftOut = (x: Expression): InputCondition => ({
  write: (inputs, places) => `OR(${x.write(inputs, places)}=0,TRIM(${x.write(inputs, places)})="")`,
  holds: (inputs) => x.at(inputs) === 0,
});

/** Whether the cell of an optional argument is empty, if a 0 in it is refused. Always false when evaluated here. */
export const isEmpty = (x: Expression): InputCondition => ({
  write: (inputs, places) => `TRIM(${x.write(inputs, places)})=""`,
  holds: (inputs) => Number.isNaN(x.at(inputs)),
});

export const isWithin = (
  x: Expression,
  { min, max }: { readonly min: number; readonly max: number },
): InputCondition => ({
  write: (inputs, places) =>
    `AND(${bare(x.write(inputs, places))}>=${numberText(min)},${bare(x.write(inputs, places))}<=${numberText(max)})`,
  holds: (inputs) => x.at(inputs) >= min && x.at(inputs) <= max,
});
