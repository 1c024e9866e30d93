import { CellFunctions } from "../../src/engine/ours/cell-functions.js";
import { type AssociatedFunction, createCustomFunctions } from "../../src/engine/ours/custom-functions.js";
import type {
  DeclaredFunction,
  DeclaredParameter,
  FunctionMetadata,
} from "../../src/engine/ours/function-metadata.js";

/** A small bundle of functions in the shape of the real one, with results that can be told in the head. */

const whole = (name: string, more: Partial<DeclaredParameter> = {}): DeclaredParameter => ({
  name,
  type: "any",
  dimensionality: "matrix",
  ...more,
});

const declare = (name: string, ...parameters: DeclaredParameter[]): DeclaredFunction => ({
  id: name,
  name,
  parameters,
  result: { type: "any", dimensionality: "matrix" },
});

const metadata: FunctionMetadata = {
  allowErrorForDataTypeAny: true,
  functions: [
    declare("DOUBLE", whole("value")),
    declare("ADD", whole("a"), whole("b")),
    declare("FAIL", whole("message", { optional: true })),
    declare("GROW", whole("rows"), whole("columns", { optional: true })),
    declare("IDENTITY", whole("value")),
    declare("KIND.OF", whole("value", { optional: true })),
    declare("LATER", whole("value")),
    declare("CREEP"),
    declare("HALF", { name: "value", type: "number" }),
    declare("JOIN", { name: "parts", type: "string", repeating: true }),
  ],
};

export function fakeFunctions(): CellFunctions {
  const { CustomFunctions, associated } = createCustomFunctions();
  const { Error: CellError, ErrorCode } = CustomFunctions;
  const first = (matrix: unknown): unknown => (matrix as unknown[][] | null)?.[0]?.[0];
  const each = (matrix: unknown, f: (value: unknown) => unknown): unknown[][] =>
    (matrix as unknown[][]).map((row) => row.map((value) => (value instanceof CellError ? value : f(value))));
  const number = (value: unknown): number => {
    if (typeof value !== "number")
      throw new CellError(ErrorCode.invalidValue, `not a number: ${String(value)}`);
    return value;
  };
  const inPlace = (f: () => unknown): unknown => {
    try {
      return f();
    } catch (thrown) {
      return thrown;
    }
  };
  let calls = 5;
  const functions: Record<string, AssociatedFunction> = {
    DOUBLE: (value) => each(value, (x) => (x === null || x === "" ? "" : inPlace(() => 2 * number(x)))),
    ADD: (a, b) => {
      const [left, right] = [a as unknown[][], b as unknown[][]];
      const height = Math.max(left.length, right.length);
      const width = Math.max(left[0]?.length ?? 0, right[0]?.length ?? 0);
      const at = (m: unknown[][], r: number, c: number): unknown =>
        m[m.length === 1 ? 0 : r]?.[m[0]?.length === 1 ? 0 : c];
      return Array.from({ length: height }, (_, r) =>
        Array.from({ length: width }, (_, c) =>
          inPlace(() => number(at(left, r, c)) + number(at(right, r, c))),
        ),
      );
    },
    FAIL: (message) => {
      const given = first(message);
      throw new CellError(ErrorCode.notAvailable, typeof given === "string" ? given : "it failed");
    },
    GROW: (rows, columns) =>
      Array.from({ length: number(first(rows)) }, (_, r) =>
        Array.from({ length: number(first(columns) ?? 1) }, (_, c) => 10 * c + r + 1),
      ),
    IDENTITY: (value) => value,
    "KIND.OF": (value) =>
      value === null
        ? "omitted"
        : each(value, (x) => (x === null ? "blank" : typeof x)).map((row) =>
            row.map((x) => (x instanceof CellError ? `error ${x.code}` : x)),
          ),
    LATER: async (value) => {
      await new Promise((done) => setTimeout(done, 1));
      return each(value, (x) => number(x) + 1000);
    },
    CREEP: () => Array.from({ length: ++calls }, () => [calls]),
    HALF: (value) => number(value) / 2,
    JOIN: (parts) => (parts as string[]).join("+"),
  };
  CustomFunctions.associate(functions);
  return new CellFunctions(metadata, associated, "GYLE");
}
