import { FormulaError, type Scalar } from "../values.js";
import { type Argument, cellsOf, NotHere, single } from "./argument.js";
import { any, logical, number, numberIn, optional, scalar, text, whole } from "./convert.js";
import { badValue, MANY, type NativeFunction, notAvailable, ofArrays, ofValues } from "./define.js";
import { findPattern } from "./wildcards.js";

/** The longest text that a cell can hold. */
const LONGEST = 32_767;

const fitting = (result: string): Scalar => (result.length > LONGEST ? badValue : result);

/** All values as texts, in order; the first error is the result. */
function textsOf(args: readonly Argument[]): string[] | FormulaError {
  const texts: string[] = [];
  for (const value of args.flatMap(cellsOf)) {
    const read = text(value);
    if (read instanceof FormulaError) return read;
    texts.push(read);
  }
  return texts;
}

function joined(delimiter: Argument, skipsEmpty: Argument, ...args: readonly Argument[]): Scalar {
  const delimiters = textsOf([delimiter]);
  const skips = logical(single(skipsEmpty));
  const texts = textsOf(args);
  if (delimiters instanceof FormulaError) return delimiters;
  if (skips instanceof FormulaError) return skips;
  if (texts instanceof FormulaError) return texts;
  const kept = skips ? texts.filter((each) => each !== "") : texts;
  const between = (place: number): string =>
    place === 0 ? "" : (delimiters[(place - 1) % delimiters.length] ?? "");
  return fitting(kept.map((each, place) => between(place) + each).join(""));
}

/** Capitalises every letter that does not follow another letter, and puts all others in lower case. */
function proper(given: string): string {
  return given.toLowerCase().replace(/\p{L}+/gu, (word) => word.charAt(0).toUpperCase() + word.slice(1));
}

function substitute(given: string, old: string, fresh: string, which: number): Scalar {
  if (which < 1) return badValue;
  if (old === "") return given;
  if (which === Infinity) return fitting(given.split(old).join(fresh));
  let place = -1;
  for (let i = 0; i < which; i++) {
    place = given.indexOf(old, place < 0 ? 0 : place + old.length);
    if (place < 0) return given;
  }
  return fitting(given.slice(0, place) + fresh + given.slice(place + old.length));
}

/** @throws NotHere if both the place and the new text are invalid: programs check them in different orders */
function replaced(given: string, from: number, count: number, fresh: Scalar): Scalar {
  const isOut = from < 1 || count < 0;
  const put = text(fresh);
  if (put instanceof FormulaError) {
    if (isOut) throw new NotHere("it replaces by an error, at a place that there is not");
    return put;
  }
  return isOut ? badValue : fitting(given.slice(0, from - 1) + put + given.slice(from - 1 + count));
}

function placeIn(find: (sought: string, given: string, from: number) => number) {
  return (sought: string, given: string, from: number): Scalar => {
    if (given === "") throw new NotHere("it looks into an empty text");
    if (from < 1 || from > given.length + 1) return badValue;
    if (sought === "" && from > given.length)
      throw new NotHere("it seeks an empty text past the last letter");
    const place = find(sought, given, from - 1);
    return place < 0 ? badValue : place + 1;
  };
}

/** Codes 32 to 126 mean the same character on every system. */
function charOf(code: number): Scalar {
  if (code < 1 || code > 255) return badValue;
  if (code > 126) throw new NotHere("which letter that code is depends on the system");
  return String.fromCharCode(code);
}

function codeOf(given: string): Scalar {
  const code = given.charCodeAt(0);
  if (Number.isNaN(code)) return badValue;
  if (code > 126) throw new NotHere("which code that letter has depends on the system");
  return code;
}

function around(side: "before" | "after") {
  return (given: string, delimiter: string, instance: number): Scalar => {
    if (instance === 0) return badValue;
    if (delimiter === "") throw new NotHere("it looks for an empty text");
    const places: number[] = [];
    for (let at = given.indexOf(delimiter); at >= 0; at = given.indexOf(delimiter, at + delimiter.length))
      places.push(at);
    const place = places.at(instance > 0 ? instance - 1 : instance);
    if (place === undefined || Math.abs(instance) > places.length) return notAvailable;
    return side === "before" ? given.slice(0, place) : given.slice(place + delimiter.length);
  };
}

/** A logical value is not a number here. */
function valueOf(given: Scalar): Scalar {
  if (typeof given === "boolean") return badValue;
  return typeof given === "string" ? numberIn(given) : (given ?? 0);
}

const concatenation = ofArrays("CONCAT", [1, MANY], (...args) => {
  const texts = textsOf(args);
  return texts instanceof FormulaError ? texts : fitting(texts.join(""));
});

export const textFunctions: readonly NativeFunction[] = [
  // Also used for the operator &.
  {
    name: "CONCATENATE",
    fewest: 1,
    most: MANY,
    calculate: (...args) =>
      ofValues(
        "CONCATENATE",
        args.map(() => text),
        (...texts) => fitting(texts.join("")),
      ).calculate(...args),
  },
  concatenation,
  ofArrays("TEXTJOIN", [3, MANY], joined),
  ofValues("LEN", [text], (given) => given.length),
  ofValues(
    "LEFT",
    [text, optional(whole, 1)],
    (given, count) => (count < 0 ? badValue : given.slice(0, count)),
    1,
  ),
  ofValues(
    "RIGHT",
    [text, optional(whole, 1)],
    (given, count) => (count < 0 ? badValue : given.slice(Math.max(0, given.length - count))),
    1,
  ),
  ofValues("MID", [text, whole, whole], (given, from, count) =>
    from < 1 || count < 0 ? badValue : given.slice(from - 1, from - 1 + count),
  ),
  ofValues("UPPER", [text], (given) => given.toUpperCase()),
  ofValues("LOWER", [text], (given) => given.toLowerCase()),
  ofValues("PROPER", [text], proper),
  ofValues("TRIM", [text], (given) => given.replace(/ +/g, " ").replace(/^ | $/g, "")),
  ofValues("CLEAN", [text], (given) => given.replace(/[\u0000-\u001f]/g, "")),
  ofValues("EXACT", [text, text], (a, b) => a === b),
  ofValues("REPT", [text, whole], (given, times) =>
    times < 0 || given.length * times > LONGEST ? badValue : given.repeat(times),
  ),
  ofValues("REPLACE", [text, whole, whole, any], replaced),
  ofValues("SUBSTITUTE", [text, text, text, optional(whole, Infinity)], substitute, 3),
  ofValues(
    "FIND",
    [text, text, optional(whole, 1)],
    placeIn((sought, given, from) => given.indexOf(sought, from)),
    2,
  ),
  ofValues("SEARCH", [text, text, optional(whole, 1)], placeIn(findPattern), 2),
  ofValues("CHAR", [whole], charOf),
  ofValues("CODE", [text], codeOf),
  ofValues("UNICHAR", [whole], (code) =>
    code < 1 || code > 0x10ffff || (code >= 0xd800 && code <= 0xdfff) ? badValue : String.fromCodePoint(code),
  ),
  ofValues("UNICODE", [text], (given) => given.codePointAt(0) ?? badValue),
  ofValues("VALUE", [scalar], valueOf),
  ofValues("TEXTBEFORE", [text, text, optional(whole, 1)], around("before"), 2),
  ofValues("TEXTAFTER", [text, text, optional(whole, 1)], around("after"), 2),
  ofValues(
    "FIXED",
    [number, optional(whole, 2), optional(logical, false)],
    (x, places, plain) => fixed(x, places, plain),
    1,
  ),
];

/** Rounded to a number of decimals, with commas between groups of three digits unless `plain`. */
function fixed(x: number, places: number, plain: boolean): Scalar {
  if (Math.abs(x) >= 1e15 || places > 15) throw new NotHere("it writes more than 15 digits");
  const scale = 10 ** Math.abs(places);
  const rounded =
    places < 0
      ? Math.round(Number((Math.abs(x) / scale).toPrecision(15))) * scale
      : Math.round(Number((Math.abs(x) * scale).toPrecision(15))) / scale;
  const digits = rounded.toFixed(Math.max(0, places));
  const grouped = plain ? digits : digits.replace(/^\d+/, (all) => all.replace(/\B(?=(\d{3})+$)/g, ","));
  return x < 0 && rounded !== 0 ? `-${grouped}` : grouped;
}
