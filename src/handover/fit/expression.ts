/**
 * A piece of an ordinary spreadsheet formula. It can be written out and evaluated here, so what is measured is what is
 * written.
 */
export interface Expression {
  /** @param inputs text for each input: a cell, a number or a calculation, safe beside any operator */
  readonly write: (inputs: readonly string[]) => string;
  readonly at: (inputs: readonly number[]) => number;
}

/** A condition on the inputs. */
export interface InputCondition {
  readonly write: (inputs: readonly string[]) => string;
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
export const substituted = (outer: Expression, inner: readonly Expression[]): Expression => ({
  write: (inputs) => outer.write(inner.map((each) => each.write(inputs))),
  at: (inputs) => outer.at(inner.map((each) => each.at(inputs))),
});

type Operator = "+" | "-" | "*" | "/";

const operations: Record<Operator, (a: number, b: number) => number> = {
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => a / b,
};

export const combined = (a: Expression, operator: Operator, b: Expression): Expression => ({
  write: (inputs) => `(${a.write(inputs)}${operator}${b.write(inputs)})`,
  at: (inputs) => operations[operator](a.at(inputs), b.at(inputs)),
});

/** A gravity as people write it: 1046 is 1.046. It uses no spreadsheet function, so it works for ranges too. */
export const gravityAsWritten = (x: Expression): Expression => ({
  write: (inputs) => `(${x.write(inputs)}/(1+999*(${x.write(inputs)}>=500)))`,
  at: (inputs) => {
    const value = x.at(inputs);
    return value / (value >= 500 ? 1000 : 1);
  },
});

/** A variable scaled to −1 … 1. */
export const scaled = (x: Expression, middle: number, half: number): Expression => ({
  write: (inputs) => `((${x.write(inputs)}${signed(-middle)})/${numberText(half)})`,
  at: (inputs) => (x.at(inputs) - middle) / half,
});

/** c[0] + c[1]·x + c[2]·x² + … in Horner form, in which the variable appears as often as the degree. */
export function horner(coefficients: readonly Expression[], x: Expression): Expression {
  return {
    write: (inputs) => {
      const variable = x.write(inputs);
      const texts = coefficients.map((c) => c.write(inputs));
      return texts.reduceRight((sum, text) =>
        text === "0" ? `(${sum}*${variable})` : `(${sum}*${variable}${plus(text)})`,
      );
    },
    at: (inputs) => {
      const value = x.at(inputs);
      return coefficients.reduceRight((sum, c) => sum * value + c.at(inputs), 0);
    },
  };
}

/** Adds a term to a sum: "(-2)" needs no plus. */
const plus = (text: string): string => (/^\(-[\d.E+-]+\)$/.test(text) ? text.slice(1, -1) : `+${text}`);

const signed = (value: number): string => plus(numberText(value));

export const atLeast = (a: Expression, b: Expression): InputCondition => ({
  write: (inputs) => `${a.write(inputs)}>=${b.write(inputs)}`,
  holds: (inputs) => a.at(inputs) >= b.at(inputs),
});

export const differsFrom = (a: Expression, b: Expression): InputCondition => ({
  write: (inputs) => `${a.write(inputs)}<>${b.write(inputs)}`,
  holds: (inputs) => a.at(inputs) !== b.at(inputs),
});

export const above = (a: Expression, b: Expression): InputCondition => ({
  write: (inputs) => `${a.write(inputs)}>${b.write(inputs)}`,
  holds: (inputs) => a.at(inputs) > b.at(inputs),
});

/** Sum of products over a list of cells. Evaluated here it is that of a single line. */
export const summed = (amounts: Expression, each: Expression): Expression => ({
  write: (inputs) => `SUMPRODUCT(${amounts.write(inputs)}*${each.write(inputs)})`,
  at: (inputs) => amounts.at(inputs) * each.at(inputs),
});

/** Substitutes expressions for the inputs of a condition. */
export const conditionOn = (outer: InputCondition, inner: readonly Expression[]): InputCondition => ({
  write: (inputs) => outer.write(inner.map((each) => each.write(inputs))),
  holds: (inputs) => outer.holds(inner.map((each) => each.at(inputs))),
});

/** One expression below a bound of x, another from there on. */
export const piecewise = (
  x: Expression,
  bound: number,
  below: Expression,
  above: Expression,
): Expression => ({
  write: (inputs) =>
    `IF(${x.write(inputs)}<${numberText(bound)},${below.write(inputs)},${above.write(inputs)})`,
  at: (inputs) => (x.at(inputs) < bound ? below : above).at(inputs),
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
    write: (inputs) => {
      const text = x.write(inputs);
      const terms = bends.map((bend, i) =>
        bend === 0 ? "" : plus(`${numberText(bend)}*MAX(0,${text}${signed(-(corners[i] ?? 0))})`),
      );
      return `(${text}${signed(start)}${terms.join("")})`;
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
  write: (inputs) => `OR(${x.write(inputs)}=0,TRIM(${x.write(inputs)})="")`,
  holds: (inputs) => x.at(inputs) === 0,
});

/** Whether the cell of an optional argument is empty, if a 0 in it is refused. Always false when evaluated here. */
export const isEmpty = (x: Expression): InputCondition => ({
  write: (inputs) => `TRIM(${x.write(inputs)})=""`,
  holds: (inputs) => Number.isNaN(x.at(inputs)),
});

export const isWithin = (
  x: Expression,
  { min, max }: { readonly min: number; readonly max: number },
): InputCondition => ({
  write: (inputs) => `AND(${x.write(inputs)}>=${numberText(min)},${x.write(inputs)}<=${numberText(max)})`,
  holds: (inputs) => x.at(inputs) >= min && x.at(inputs) <= max,
});
