// The same question to every function of functions.json.
import { readFileSync } from "node:fs";
import { expect } from "vitest";
import { built } from "./browser.js";
import { cellsOf } from "./host-cells.js";
import type { FunctionsPage } from "./office-page.js";
import { workedExamples, type WorkedExample } from "./worked-examples.js";

interface Parameter {
  readonly dimensionality: "scalar" | "matrix";
  readonly optional?: boolean;
}

export interface KnownFunction {
  readonly id: string;
  readonly parameters: readonly Parameter[];
  readonly example: WorkedExample;
}

const { functions } = JSON.parse(readFileSync(built("functions.json"), "utf8")) as {
  functions: { id: string; parameters: Parameter[] }[];
};

export const everyFunction: readonly KnownFunction[] = functions.map(({ id, parameters }) => {
  const example = workedExamples[id];
  if (!example) throw new Error(`${id} has no worked example.`);
  return { id, parameters, example };
});

export const ids = everyFunction.map(({ id }) => id).sort();

/** A call as Excel makes it: one cell to a matrix is a matrix, and what is left out is null. */
export const call = ({ id, parameters }: KnownFunction, args: readonly unknown[]): HostCall => [
  id,
  parameters.map(({ dimensionality }, i) => {
    const arg = args[i] ?? null;
    return dimensionality === "scalar" || Array.isArray(arg) || arg === null ? arg : [[arg]];
  }),
];

/** The worked example with another argument at one place. */
export const replaced = ({ example }: KnownFunction, at: number, by: unknown): unknown[] =>
  Object.assign([...example.args], { [at]: by });

export const down = (...cells: unknown[]): unknown[][] => cells.map((cell) => [cell]);

type Check = (cells: unknown[][], of: KnownFunction, call: HostCall) => void;

/** Puts questions to functions, all in one message, and checks the cells of each answer, which are sound. */
export async function askAll(
  { ask }: FunctionsPage,
  questions: (of: KnownFunction) => readonly HostCall[],
  check: Check,
  flags = 0,
): Promise<void> {
  const asked = everyFunction.flatMap((of) => questions(of).map((call) => ({ of, call })));
  const answers = await ask(
    asked.map(({ call }) => call),
    flags,
  );
  asked.forEach(({ of, call }, i) => {
    check(cellsOf(call, answers[i]), of, call);
  });
}

export const rowsOf = ({ rows }: WorkedExample): number => rows ?? 1;
export const columnsOf = (example: WorkedExample): number => example.gives.length / rowsOf(example);

/** The worked example, so many times one below the other. */
export const likeExample =
  (times: number, columns?: number): Check =>
  (cells, { example }, call) => {
    const { gives, within } = example;
    const own = columnsOf(example);
    const width = columns ?? own;
    expect([call, cells.length, cells[0]?.length]).toEqual([call, times * rowsOf(example), width]);
    cells.forEach((row, r) => {
      row.forEach((cell, c) => {
        const at = (r % rowsOf(example)) * own + (c % own);
        const expected = gives[at];
        const right =
          typeof expected === "number" && typeof cell === "number"
            ? Math.abs(cell - expected) <= (within[at] ?? 0)
            : cell === expected;
        if (!right)
          expect.fail(`${JSON.stringify(call)} gave ${JSON.stringify(cell)} and not ${String(expected)}`);
      });
    });
  };
