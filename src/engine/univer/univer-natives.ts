import {
  ALL_IMPLEMENTED_FUNCTIONS,
  type BaseFunction,
  BaseFunction as UniverFunction,
  type BaseReferenceObject,
  type BaseValueObject,
  functionCompatibility,
  functionDate,
  functionFinancial,
  functionLookup,
  functionMath,
  functionStatistical,
} from "@univerjs/engine-formula";
import { calculated, ofNumbersOnly } from "./calculated-functions.js";
import { type Argument, NotHere } from "../native/argument.js";
import { number } from "../native/convert.js";
import { type NativeFunction, ofValues } from "../native/define.js";
import { natives } from "../native/natives.js";
import { compared } from "../native/operators.js";
import { argumentFromUniver, toUniver, valueFromUniver } from "./univer-values.js";
import { FormulaError, Values, type FormulaValue } from "../values.js";

/** A function for the "function" option of Univer's formula engine. */
export type UniverClass = readonly [new (name: string) => BaseFunction, string];

/** Univer's functions that are not calculated here. */
export const withheld: readonly string[] = ALL_IMPLEMENTED_FUNCTIONS.map(([, name]) => String(name)).filter(
  (name) => !calculated.isNeeded(name),
);

/** Handles a refused calculation: rethrows it or returns a value. */
type Refused = (refusal: NotHere) => BaseValueObject;

/**
 * The operators and functions calculated by our code, as Univer's. Passed to its engine, they replace its own of the
 * same names.
 */
export function nativeClasses(refused: Refused = rethrow): UniverClass[] {
  return [
    ...[...natives, ...mathematics()].map((fn): UniverClass => [
      classOf(fn.fewest, fn.most, fn.calculate, refused),
      fn.name,
    ]),
    [comparisonClass(refused), "COMPARE"],
    [offsetClass(), "OFFSET"],
    [aggregateClass(), "AGGREGATE"],
  ];
}

/** For a host that can show a refusal only in the cell. */
export const asError: Refused = (refusal) => toUniver(new FormulaError("#VALUE!", refusal.message));

function rethrow(refusal: NotHere): never {
  throw refusal;
}

function classOf(
  fewest: number,
  most: number,
  calculate: (...args: readonly Argument[]) => FormulaValue,
  refused: Refused,
): new (name: string) => BaseFunction {
  return class extends UniverFunction {
    override minParams = fewest;
    override maxParams = most;

    override calculate(...args: BaseValueObject[]): BaseValueObject {
      return answer(() => calculate(...args.map(argumentFromUniver)), refused);
    }
  };
}

/** Its own leaves out what a filter hides even where it is told to leave out no hidden rows, as only SUBTOTAL does. */
function aggregateClass(): new (name: string) => BaseFunction {
  const Theirs = new Map<string, new (name: string) => BaseFunction>(
    functionMath.map((entry) => [String(entry[1]), entry[0] as new (name: string) => BaseFunction]),
  ).get("AGGREGATE");
  if (!Theirs) throw new Error("the engine has no function AGGREGATE");
  return class extends Theirs {
    override needsFilteredOutRows = false;
  };
}

function comparisonClass(refused: Refused): new (name: string) => BaseFunction {
  return class extends UniverFunction {
    override minParams = 2;
    override maxParams = 2;
    #operator = "=";

    /** Univer sets the comparison before it asks for the result. */
    setCompareType(operator: string): void {
      this.#operator = operator;
    }

    override calculate(left: BaseValueObject, right: BaseValueObject): BaseValueObject {
      return answer(
        () => compared(this.#operator, argumentFromUniver(left), argumentFromUniver(right)),
        refused,
      );
    }
  };
}

function answer(calculate: () => FormulaValue, refused: Refused): BaseValueObject {
  try {
    return toUniver(calculate());
  } catch (error) {
    if (error instanceof NotHere) return refused(error);
    throw error;
  }
}

/** Where one program has 0 and another its last bit; where there is nothing to pay. */
const inDoubt = new Map<string, (...numbers: (number | undefined)[]) => boolean>([
  ["NORM.S.INV", (p) => p === 0.5],
  ["NORMSINV", (p) => p === 0.5],
  ["NPER", (_, payment) => payment === 0],
]);

/**
 * Functions of numbers whose mathematics is Univer's. Only numbers are accepted, plus a logical value as last argument
 * for some: programs differ in what else they accept.
 */
function mathematics(): NativeFunction[] {
  const theirs = new Map<string, new (name: string) => BaseFunction>(
    [functionCompatibility, functionDate, functionFinancial, functionMath, functionStatistical]
      .flat()
      .map((entry) => [String(entry[1]), entry[0] as new (name: string) => BaseFunction]),
  );
  return [...ofNumbersOnly].map(([name, [fewest, most]]) => {
    const Theirs = theirs.get(name);
    if (!Theirs) throw new Error(`the engine has no function ${name}`);
    const fn = new Theirs(name);
    const given = (value: Parameters<typeof number>[0]): ReturnType<typeof number> | undefined => {
      if (typeof value === "boolean" || typeof value === "string")
        throw new NotHere(`${name} is given what is no number`);
      return value === undefined ? undefined : number(value);
    };
    const truth: typeof given = (value) => (typeof value === "boolean" ? Number(value) : given(value));
    return ofValues(
      name,
      Array.from({ length: most }, (_, i) => (i > 0 && i === most - 1 ? truth : given)),
      (...numbers) => {
        if (inDoubt.get(name)?.(...numbers)) throw new NotHere(`${name} is given what programs disagree on`);
        const args = numbers.filter((each) => each !== undefined).map((each) => toUniver(each));
        const value = valueFromUniver(fn.calculate(...args) as BaseValueObject);
        return value instanceof Values ? value.at(0, 0) : value;
      },
      fewest,
    );
  });
}

/** OFFSET, by whole rows and columns: Univer finds no cell for fractions. */
function offsetClass(): new (name: string) => BaseFunction {
  const [Theirs] = functionLookup.find(([, name]) => String(name) === "OFFSET") ?? [];
  if (!Theirs) throw new Error("the engine has no function OFFSET");
  return class extends (Theirs as new (name: string) => BaseFunction) {
    override calculate(
      ...[reference, ...distances]: BaseValueObject[]
    ): ReturnType<BaseFunction["calculate"]> {
      const given = reference === undefined ? [] : [reference];
      return super.calculate(...given, ...distances.map(wholeDistance));
    }
  };
}

function wholeDistance(distance: BaseValueObject): BaseValueObject {
  const given: unknown = distance.isReferenceObject()
    ? (distance as unknown as BaseReferenceObject).toArrayValueObject()
    : distance;
  const read = argumentFromUniver(given as BaseValueObject);
  const isSeveral = read instanceof Values && read.height * read.width > 1;
  const value = read instanceof Values ? read.at(0, 0) : read;
  return isSeveral || typeof value !== "number" ? distance : toUniver(Math.trunc(value));
}
