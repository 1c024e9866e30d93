// What a host may hand over to a cell function: anything at all, and what people really write with one thing wrong in it.
import fc, { type Arbitrary } from "fast-check";
import type { FunctionSpec, Parameter } from "../../src/functions/contract/function-spec.js";
import { anyLog } from "./any-log.js";
import { instruments } from "./instruments.js";

const names = instruments.instruments.map((instrument) => instrument.name);

const between = (min: number, max: number): Arbitrary<number> => {
  const steps = 2 ** 30;
  return fc.integer({ min: 0, max: steps }).map((n) => min + ((max - min) * n) / steps);
};

const errors = fc.constantFrom(
  { code: "#DIV/0!" },
  { code: "#REF!" },
  { code: "#N/A" },
  { code: 5 },
  { type: "Error", basicValue: "#N/A" },
  { type: "Error", basicValue: "#NAME?", errorType: "Name" },
);

const blanks = fc.constantFrom(null, undefined, "", " ", 0, -0);

const words = fc.constantFrom(
  ...["P", "SG", "C", "F", "l", "gal", "PCT", "PPG", "RULE", "1,052", "1.052", "n/a", "2026-03-01T18:30"],
  ...["2026-03-01T18:30+01:00", "2026-02-31", "Attic glass", ...names],
);

/** Any cell of any sheet, and a little beyond. */
const anyCell: Arbitrary<unknown> = fc.oneof(
  { weight: 4, arbitrary: fc.double() },
  { weight: 4, arbitrary: between(-5, 120) },
  { weight: 4, arbitrary: between(0.97, 1.14) },
  { weight: 2, arbitrary: between(970, 1140) },
  { weight: 1, arbitrary: between(44_000, 47_000) },
  { weight: 1, arbitrary: fc.constantFrom(NaN, Infinity, -Infinity, 5e-324, 1.7e308, -1e-9, 2 ** 53) },
  { weight: 2, arbitrary: blanks },
  { weight: 1, arbitrary: fc.boolean() },
  { weight: 2, arbitrary: words },
  { weight: 1, arbitrary: fc.string({ unit: "binary" }) },
  { weight: 1, arbitrary: errors },
  { weight: 1, arbitrary: fc.anything() },
);

const gravity = fc.oneof(
  { weight: 6, arbitrary: between(0.985, 1.125) },
  { weight: 1, arbitrary: between(985, 1125) },
  { weight: 2, arbitrary: between(-3, 30) },
);
const final = fc.oneof(
  { weight: 4, arbitrary: between(0.99, 1.03) },
  { weight: 1, arbitrary: between(-2, 8) },
);

/** What a parameter is likely to get, by a word in its name; the first that fits. */
const likely: readonly (readonly [RegExp, Arbitrary<unknown>])[] = [
  [/temperature_uncertainty|plusminus|tolerance/, between(0.0001, 0.01)],
  [/temperature/, fc.oneof(between(0, 40), between(40, 100), between(30, 212))],
  [/final|target/, final],
  [/refractometer_reading/, between(0, 32)],
  [/gravit|original|reading|^value$/, gravity],
  [/attenuation/, between(50, 100)],
  [/^(volume|end_volume|volumes)$/, between(0.5, 3000)],
  [/amounts/, between(0.01, 500)],
  [/yield/, fc.oneof(between(40, 105), between(150, 400), between(10, 46))],
  [/millilitres/, between(10, 1000)],
  [/times|^at$/, between(46_000, 46_030)],
  [/days/, between(0.5, 60)],
  [/^to$/, between(-5, 120)],
];

function likelyCell({ name, choices, namesInstrument, instrumentKind }: Parameter): Arbitrary<unknown> {
  if (choices.length > 0)
    return fc.constantFrom(...choices, ...choices.map((word) => ` ${word.toLowerCase()}`));
  if (namesInstrument) {
    const fitting = instruments.instruments.filter(({ kind }) => kind === (instrumentKind ?? kind));
    return fc.oneof(
      { weight: 4, arbitrary: fc.constantFrom(...fitting.map((instrument) => instrument.name)) },
      { weight: 1, arbitrary: fc.constantFrom(...names) },
    );
  }
  return likely.find(([word]) => word.test(name))?.[1] ?? anyCell;
}

const grid = (cell: Arbitrary<unknown>, rows: number, columns: number): Arbitrary<unknown[][]> =>
  fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows });

const size = fc.oneof(
  { weight: 12, arbitrary: fc.integer({ min: 1, max: 3 }) },
  { weight: 1, arbitrary: fc.integer({ min: 0, max: 12 }) },
);

const anyMatrix = fc.tuple(size, size).chain(([rows, columns]) => grid(anyCell, rows, columns));
const ragged = fc.array(fc.oneof(fc.array(anyCell, { maxLength: 3 }), anyCell), { maxLength: 4 });

const anything = (parameters: number): Arbitrary<unknown[]> =>
  fc.array(
    fc.oneof(
      { weight: 10, arbitrary: anyCell },
      { weight: 10, arbitrary: anyMatrix },
      { weight: 1, arbitrary: ragged },
    ),
    { maxLength: parameters + 2 },
  );

/** Now and then what nobody expects there. */
const spoilt = (cell: Arbitrary<unknown>, oneIn: number): Arbitrary<unknown> =>
  fc.oneof({ weight: oneIn - 1, arbitrary: cell }, { weight: 1, arbitrary: anyCell });

/** As it should be, or nearly: each argument in its place, optional ones often left out, ranges of shapes that may go together. */
function sensible({ parameters, lists = [] }: FunctionSpec): Arbitrary<unknown[]> {
  const shapes = fc.tuple(size, size, fc.integer({ min: 0, max: 9 }));
  const usual = new Map(parameters.map((parameter) => [parameter, spoilt(likelyCell(parameter), 25)]));
  return shapes.chain(([rows, columns, kind]) => {
    const shaped = (parameter: Parameter): Arbitrary<unknown> => {
      const cell = usual.get(parameter) ?? anyCell;
      const isList = lists.includes(parameter.name);
      if (isList) return grid(cell, Math.max(rows, kind), 1);
      if (kind < 4) return cell;
      const ranges = kind < 7 ? [grid(cell, rows, 1)] : [grid(cell, rows, columns), grid(cell, 1, columns)];
      return fc.oneof(cell, ...ranges, ...(kind === 9 ? [grid(cell, rows, 1)] : []));
    };
    const all = parameters.map((parameter) =>
      parameter.optional ? fc.oneof(shaped(parameter), fc.constant(undefined)) : shaped(parameter),
    );
    return fc.tuple(...all);
  });
}

const readsLog = ({ lists = [] }: FunctionSpec): boolean => lists[0] === "times";

function ofLog({ parameters }: FunctionSpec): Arbitrary<unknown[]> {
  const others = parameters
    .slice(2)
    .map((parameter) => fc.oneof(spoilt(likelyCell(parameter), 10), fc.constant(undefined)));
  return fc.tuple(anyLog, fc.tuple(...others)).map(([log, asked]) => [...log, ...asked]);
}

/** Arguments for a function of which nothing is sure. */
export function anyArguments(spec: FunctionSpec): Arbitrary<unknown[]> {
  const kinds = [anything(spec.parameters.length), sensible(spec)];
  return fc.oneof(...kinds, ...(readsLog(spec) ? [ofLog(spec)] : []));
}

/** What people write where all is well: single cells, each as its parameter has it. */
export function likelyArguments({ parameters }: FunctionSpec): Arbitrary<unknown[]> {
  return fc.tuple(
    ...parameters.map((parameter) =>
      parameter.optional ? fc.oneof(likelyCell(parameter), fc.constant(undefined)) : likelyCell(parameter),
    ),
  );
}
