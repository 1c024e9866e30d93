import { FormulaError, Values, type FormulaValue, type Scalar } from "../values.js";
import { type Argument, cellsOf, isSeveral, broadcast, NotHere, single } from "./argument.js";
import { compareValues } from "./compare.js";
import { logical, truthIn } from "./convert.js";
import { badValue, MANY, type NativeFunction, notAvailable, ofArrays, ofValues } from "./define.js";

/**
 * The logical values of the arguments: text in cells is skipped, text literals must say TRUE or FALSE. The first error
 * is the result.
 */
function truthsOf(args: readonly Argument[]): boolean[] | FormulaError {
  const truths: boolean[] = [];
  for (const argument of args) {
    const written = !(argument instanceof Values);
    for (const value of cellsOf(argument)) {
      if (value instanceof FormulaError) return value;
      if (typeof value === "boolean" || typeof value === "number") truths.push(Boolean(value));
      else if (written) {
        truths.push(value === null ? false : spelledTruth(value));
      }
    }
  }
  return truths.length === 0 ? badValue : truths;
}

/** @throws NotHere for other text: #VALUE! in Excel, skipped by others */
function spelledTruth(text: string): boolean {
  const truth = truthIn(text);
  if (truth === undefined) throw new NotHere(`it takes the text "${text}" for TRUE or FALSE`);
  return truth;
}

function ofTruths(name: string, f: (truths: readonly boolean[]) => boolean): NativeFunction {
  return ofArrays(name, [1, MANY], (...args) => {
    const truths = truthsOf(args);
    return truths instanceof FormulaError ? truths : f(truths);
  });
}

/** Chooses by a condition: whole arguments for a single condition, value by value for an array. */
function chosen(
  condition: Argument,
  choose: (truth: boolean) => Argument,
  others: readonly Argument[],
): FormulaValue {
  if (!isSeveral(condition)) {
    const truth = logical(single(condition));
    return truth instanceof FormulaError ? truth : (choose(truth) ?? null);
  }
  return broadcast([condition, ...others], (value, yes, no) => {
    const truth = logical(value);
    return truth instanceof FormulaError ? truth : truth ? (yes ?? null) : (no ?? null);
  });
}

/** The value itself, or a substitute for certain errors. */
function instead(name: string, isReplaced: (value: Scalar) => boolean): NativeFunction {
  return ofArrays(name, [2, 2], (value, otherwise) =>
    isSeveral(value) || (isSeveral(otherwise) && isReplaced(single(value) ?? null))
      ? broadcast([value, otherwise], (one = null, other = null) => (isReplaced(one) ? other : one))
      : ((isReplaced(single(value) ?? null) ? otherwise : value) ?? null),
  );
}

function firstTrue(pairs: readonly Argument[]): FormulaValue {
  for (let i = 0; i < pairs.length; i += 2) {
    const truth = logical(single(pairs[i]));
    if (truth instanceof FormulaError) return truth;
    if (truth) return pairs[i + 1] ?? null;
  }
  return notAvailable;
}

function switched(subject: Argument, ...rest: readonly Argument[]): FormulaValue {
  const sought = single(subject) ?? null;
  if (sought instanceof FormulaError) return sought;
  const otherwise = rest.length % 2 === 1 ? rest.at(-1) : notAvailable;
  for (let i = 0; i + 1 < rest.length; i += 2) {
    const candidate = single(rest[i]) ?? null;
    if (candidate instanceof FormulaError) return candidate;
    const alike = candidate === null || sought === null || typeof candidate === typeof sought;
    if (alike && compareValues(sought, candidate) === 0) return rest[i + 1] ?? null;
  }
  return otherwise ?? null;
}

export const logicalFunctions: readonly NativeFunction[] = [
  ofTruths("AND", (truths) => truths.every(Boolean)),
  ofTruths("OR", (truths) => truths.some(Boolean)),
  ofTruths("XOR", (truths) => truths.filter(Boolean).length % 2 === 1),
  ofValues("NOT", [logical], (truth) => !truth),
  ofValues("TRUE", [], () => true),
  ofValues("FALSE", [], () => false),
  ofArrays("IF", [1, 3], (condition, yes = true, no = false) =>
    chosen(condition, (truth) => (truth ? yes : no), [yes, no]),
  ),
  ofArrays("IFS", [2, MANY], (...pairs) => {
    if (pairs.length % 2 === 1) return notAvailable;
    if (!pairs.some((argument, i) => i % 2 === 0 && isSeveral(argument))) return firstTrue(pairs);
    return broadcast(pairs, (...values) => single(firstTrue(values)) ?? null);
  }),
  ofArrays("SWITCH", [3, MANY], (...args) =>
    isSeveral(args[0])
      ? broadcast(args, (...values) => single(switched(values[0], ...values.slice(1))) ?? null)
      : switched(args[0], ...args.slice(1)),
  ),
  instead("IFERROR", (value) => value instanceof FormulaError),
  instead("IFNA", (value) => value instanceof FormulaError && value.error === "#N/A"),
];
