import {
  factorText,
  numberText,
  addedTerm,
  type CoefficientBlock,
  type Expression,
  type Places,
} from "./expression.js";
import type { Interval } from "./interval.js";

/** A variable as it is raised to powers: factor × x + offset, from 0.1 to about 1 and so never 0, as 0⁰ is an error. */
export interface VariableScale {
  readonly factor: number;
  readonly offset: number;
}

const LEAST = 0.1;
const WIDTH = 0.9;

/** The scale of an interval, in few digits, so that the formula is short. */
export function scaleOf({ min, max }: Interval): VariableScale {
  const widest = max > min ? WIDTH / (max - min) : 1;
  const digit = 10 ** (Math.floor(Math.log10(widest)) - 1);
  const factor = Number((Math.floor(widest / digit) * digit).toPrecision(2));
  return { factor, offset: Math.ceil((LEAST - min * factor) * 10) / 10 };
}

/** Coefficients of a polynomial of one or two variables, and their scales. */
export interface Coefficients {
  /** [power of the second][power of the first] */
  readonly rows: readonly (readonly number[])[];
  readonly scales: readonly VariableScale[];
}

/** Value of a polynomial, summed as a formula does. */
export function polynomialValue({ rows, scales }: Coefficients, x: readonly number[]): number {
  const [u = NaN, v = 1] = scales.map(({ factor, offset }, i) => (x[i] ?? NaN) * factor + offset);
  let [sum, down] = [0, 1];
  for (const row of rows) {
    let across = down;
    for (const c of row) {
      sum += c * across;
      across *= u;
    }
    down *= v;
  }
  return sum;
}

/**
 * A polynomial as a formula that takes its coefficients from a sheet, or has them in it if they are two or fewer.
 *
 * @param names of the variables, for people
 */
export function polynomialFormula(
  coefficients: Coefficients,
  names: readonly string[],
  says: Pick<CoefficientBlock, "title" | "worst">,
): Expression {
  const { rows, scales } = coefficients;
  const count = rows[0]?.length ?? 0;
  const line = rows.length === 1 && count <= 2 ? straightLine(coefficients) : undefined;
  if (line) return line;
  const variables = scales.map((scale, v) => scaledText(names[v] ?? "", scale));
  const block: CoefficientBlock = { ...says, variables, rows };
  const product = (inputs: readonly string[], places: Places, upright: boolean): string =>
    scales.reduce(
      (text, scale, v) => {
        const number = v === 0 ? count : rows.length;
        return `${text}*${scaledText(inputs[v] ?? "", scale)}^${exponents(number, v === 0 && !upright)}`;
      },
      places.block(block, upright),
    );
  return {
    write: (inputs, places) => `SUMPRODUCT(${product(inputs, places, false)})`,
    terms: (inputs, places) => product(inputs, places, !places.listsGoDown),
    at: (inputs) => polynomialValue(coefficients, inputs),
  };
}

/** {0,1,2} in columns, {0;1;2} in rows. */
const exponents = (count: number, across: boolean): string =>
  `{${Array.from({ length: count }, (_, i) => i).join(across ? "," : ";")}}`;

const scaledText = (x: string, { factor, offset }: VariableScale): string =>
  `(${factorText(x)}*${numberText(factor)}${offset === 0 ? "" : addedTerm(offset)})`;

const LINE_DIGITS = 12;

function straightLine({ rows: [[start = 0, slope = 0] = []], scales: [scale] }: Coefficients): Expression {
  const { factor, offset } = scale ?? { factor: 1, offset: 0 };
  const [a, b] = [start + slope * offset, slope * factor].map((c) => Number(c.toPrecision(LINE_DIGITS)));
  const [constant, steepness] = [a ?? 0, b ?? 0];
  return steepness === 0
    ? { write: () => numberText(constant), at: () => constant }
    : {
        write: ([x = ""]) => `(${factorText(x)}*${numberText(steepness)}${addedTerm(constant)})`,
        at: ([x = NaN]) => x * steepness + constant,
      };
}
