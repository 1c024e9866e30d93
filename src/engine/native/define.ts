import { FormulaError, formulaErrors, finite, type FormulaValue, type Scalar } from "../values.js";
import { type Argument, broadcast } from "./argument.js";
import type { Converter } from "./convert.js";

/** A function or operator, calculated as in Excel. */
export interface NativeFunction {
  /** In capitals, without a file's prefix. */
  readonly name: string;
  readonly fewest: number;
  readonly most: number;
  readonly calculate: (...args: readonly Argument[]) => FormulaValue;
}

/** Most arguments that Excel allows in one call. */
export const MANY = 255;

type Converters<T extends readonly unknown[]> = { readonly [K in keyof T]: Converter<T[K]> };

/**
 * A function of single values. Given arrays, it returns an array of results. The first argument that cannot be
 * converted is the result; NaN is #NUM!.
 *
 * @param fewest how many arguments are needed; all of them by default
 */
export function ofValues<T extends readonly unknown[]>(
  name: string,
  converters: Converters<T>,
  f: (...args: T) => Scalar,
  fewest = converters.length,
): NativeFunction {
  const call = (...values: (Scalar | undefined)[]): Scalar => {
    const converted: unknown[] = [];
    for (const [place, convert] of converters.entries()) {
      const value = convert(values[place]);
      if (value instanceof FormulaError) return value;
      converted.push(value);
    }
    return settled(f(...(converted as unknown as T)));
  };
  return { name, fewest, most: converters.length, calculate: (...args) => broadcast(args, call) };
}

/** A function of whole arguments. */
export function ofArrays(
  name: string,
  [fewest, most]: readonly [fewest: number, most: number],
  calculate: (...args: readonly Argument[]) => FormulaValue,
): NativeFunction {
  return {
    name,
    fewest,
    most,
    calculate: (...args) => {
      const result = calculate(...args);
      return typeof result === "number" ? finite(result) : result;
    },
  };
}

function settled(value: Scalar): Scalar {
  return typeof value === "number" ? finite(value) : value;
}

/** The same function under another name. */
export function alias(name: string, fn: NativeFunction): NativeFunction {
  return { ...fn, name };
}

export const divisionByZero = new FormulaError("#DIV/0!");
export const badReference = new FormulaError("#REF!");
export const { value: badValue, number: badNumber, notAvailable } = formulaErrors;
