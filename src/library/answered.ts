import { extractOfGravity, gravityRange } from "../core/liquid/gravity.js";
import { checkRange, Refusal, type Range } from "../core/refusal.js";
import { sentence } from "../functions/contract/messages.js";

/**
 * Returns the answer of the core, or throws an error that says what is wrong.
 *
 * @param given numbers by the caller's names for them
 * @throws TypeError if one of them is not a number; RangeError, with the core's reason as its cause, if there is no
 *   answer
 */
export function answered<T>(given: Readonly<Record<string, number>>, calculate: () => T): T {
  for (const [name, value] of Object.entries(given)) mustBeNumber(name, value);
  try {
    return calculate();
  } catch (error) {
    if (error instanceof Refusal) throw new RangeError(sentence(error.reason), { cause: error.reason });
    throw error;
  }
}

/** Untyped programs may pass anything, and "1.05" + 0.001 would be a text. */
function mustBeNumber(name: string, value: unknown): void {
  if (typeof value !== "number")
    throw new TypeError(
      `${name} must be a number, and is ${shown(value)}. Give it as in 1.05, without quotes.`,
    );
}

const shown = (value: unknown): string =>
  typeof value === "string" ? `the text ${JSON.stringify(value)}` : value === null ? "null" : typeof value;

/** Checks a value against a range of the core, by the caller's name for it. @returns the value */
export function inRange(range: Range, name: string, value: number): number {
  checkRange({ ...range, of: name }, value);
  return value;
}

/** °P of a gravity; a refusal uses the caller's name for it. */
export const platoOf = (name: string, sg: number): number =>
  extractOfGravity(inRange(gravityRange, name, sg));

/** @throws RangeError for a word that is not allowed */
export function mustBeOneOf(name: string, given: string, allowed: readonly string[]): void {
  if (!allowed.includes(given))
    throw new RangeError(
      `${name} is ${JSON.stringify(given)}. Use ${either(allowed.map((word) => `"${word}"`))}.`,
    );
}

/**
 * Fills in defaults for options that were not given.
 *
 * @throws TypeError if the options are not an object, or one does not exist: both would be ignored otherwise
 */
export function withUsual<T extends object>(usual: T, given: Partial<T>): T {
  const names = either(Object.keys(usual));
  if (!isObject(given))
    throw new TypeError(`The options must be an object. Give ${names} by name, in braces.`);
  const options = { ...usual };
  for (const [name, value] of Object.entries(given)) {
    if (!Object.hasOwn(usual, name)) throw new TypeError(`There is no option ${name}. Use ${names}.`);
    if (value !== undefined) Object.assign(options, { [name]: value });
  }
  return options;
}

const isObject = (given: unknown): boolean => typeof given === "object" && given !== null;

const either = (words: readonly string[]): string =>
  `${words.slice(0, -1).join(", ")} or ${words.at(-1) ?? ""}`;
