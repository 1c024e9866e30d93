// Real refusals: each mistake is made when the help is built, and the page shows what the function says then.
import type { Range } from "../core/refusal.js";
import { singleCall, type ArgumentSource } from "../formulas/single-call.js";
import { CellError, type RawCells } from "../functions/contract/cell-value.js";
import { evaluate } from "../functions/evaluate.js";
import { NAMESPACE, type FunctionSpec, type Parameter } from "../functions/contract/function-spec.js";
import { ownMistakes } from "./own-mistakes.js";
import { covered } from "./ranges.js";
import { sampleInstruments } from "./sample-book.js";
import { argument, functions, type WorkedExample } from "./worked-example.js";

export interface Mistake {
  /** A formula without "=", or new content for a cell of the worked example. */
  readonly made: { readonly formula: string } | { readonly cell: string; readonly holds: string };
  readonly error: CellError;
  readonly remedy: string;
}

type Value = number | string | undefined;

/** Error messages of the function for bad input; input that it accepts is left out. */
export function mistakes(spec: FunctionSpec, worked: WorkedExample): Mistake[] {
  const own = ownMistakes(spec.name).map(([formula, remedy]) => made(spec, formula, remedy, worked));
  const usual = spec.parameters.flatMap((parameter, i) =>
    changes(spec, parameter, i, worked).flatMap(
      ([value, remedy]) => changed(spec, worked, i, value, remedy) ?? [],
    ),
  );
  // Mistakes with the same remedy are the same mistake at different places.
  return [
    ...own,
    ...usual.filter(({ remedy }, i) => usual.findIndex((each) => each.remedy === remedy) === i),
  ];
}

const EMPTY = "Fill it in. To leave a whole row out, leave all of it empty.";

const CHECK = "Check the value and its unit.";

/** Mistakes that people make with a parameter, and the remedies. */
function changes(
  spec: FunctionSpec,
  { optional, namesInstrument, instrumentKind, choices }: Parameter,
  i: number,
  { args }: WorkedExample,
): (readonly [Value, string])[] {
  if (namesInstrument) {
    const other = sampleInstruments.instruments.find(({ kind }) => kind !== instrumentKind);
    return [
      ["Grandfather's glass", "Spell the name as the pane lists it, or add the instrument there."],
      ...(instrumentKind === undefined
        ? []
        : ([[other?.name, "Name an instrument of the right kind."]] as const)),
      ...(optional ? [] : ([[undefined, EMPTY]] as const)),
    ];
  }
  if (choices.length > 0) return [["?", "Write one of these words, in quotes; capitals do not matter."]];
  const given = firstOf(args[i]);
  const ranges = covered[spec.name]?.[spec.parameters[i]?.name ?? ""] ?? [];
  return [
    ...(typeof given === "number"
      ? ([
          [withComma(given), "Type it again as a number, the way your spreadsheet writes decimals."],
        ] as const)
      : []),
    ...(optional ? [] : ([[undefined, EMPTY]] as const)),
    ...ranges.slice(0, 1).map((range) => outside(range, given)),
  ];
}

const withComma = (value: number): string =>
  String(value).replace(".", ",") + (Number.isInteger(value) ? ",0" : "");

/** The likeliest value outside a range. */
function outside({ unit, max }: Range, given: unknown): readonly [Value, string] {
  switch (unit) {
    case "SG":
    case "°P":
      if (Number(given) > 2) return [max + 10, CHECK];
      return [12, 'Write it on the scale that the function takes, or say "P" as scale if it has one.'];
    case "°C":
      return [max + 15, "Is it °F? Give °C, or say in the instrument or the unit that it is °F."];
    case "":
      return [typeof given === "number" ? -given : -1, "Amounts are above 0."];
    default:
      return [max + 10, CHECK];
  }
}

const firstOf = (matrix: RawCells | undefined): unknown => matrix?.[0]?.[0];

function changed(
  spec: FunctionSpec,
  { sources, args }: WorkedExample,
  i: number,
  value: Value,
  remedy: string,
): Mistake | undefined {
  const spoiled = (args[i] ?? [[undefined]]).map((row, r) =>
    row.map((cell, c) => (r + c === 0 ? value : cell)),
  );
  const error = errorOf(
    spec,
    args.map((each, at) => (at === i ? spoiled : each)),
  );
  if (!error) return undefined;
  const source = sources[i];
  if (source && "reference" in source)
    return { made: { cell: firstCell(source.reference), holds: inCell(value) }, error, remedy };
  const all = Array.from({ length: Math.max(sources.length, i + 1) }, (_, at) => sources[at]);
  const texts = all.map((each, at) => (at === i ? literal(value) : spelled(each)));
  return { made: { formula: `${NAMESPACE}.${spec.name}(${texts.join(",")})` }, error, remedy };
}

function made(spec: FunctionSpec, formula: string, remedy: string, { cells }: WorkedExample): Mistake {
  const call = singleCall(`=${formula}`, functions);
  const error = errorOf(
    spec,
    spec.parameters.map((_, i) => argument(call?.args[i], cells)),
  );
  if (!error) throw new Error(`${formula} is no mistake: nothing is refused.`);
  return { made: { formula }, error, remedy };
}

function errorOf({ name }: FunctionSpec, args: readonly RawCells[]): CellError | undefined {
  return evaluate(name, args, sampleInstruments)
    .flat()
    .find((cell) => cell instanceof CellError);
}

/** "B2:B900" begins with "B2". */
const firstCell = (reference: string): string => reference.split(":")[0] ?? reference;

const literal = (value: Value): string => (typeof value === "string" ? `"${value}"` : String(value ?? ""));

const inCell = (value: Value): string => (value === undefined ? "nothing" : literal(value));

function spelled(source: ArgumentSource): string {
  if (!source) return "";
  if ("reference" in source) return source.reference;
  return typeof source.value === "boolean" ? String(source.value).toUpperCase() : literal(source.value);
}
