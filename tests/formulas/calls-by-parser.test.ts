// Our calls as the walk over pieces finds them, held to a parser of formulas, which reads what is well-formed and no more.
import { parse, tokenize, type AstExpression } from "@borgar/fx/xlsx";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseFormula } from "../../src/formulas/own-calls.js";
import { foundCalls } from "../../src/formulas/single-call.js";
import { formulaTokens } from "../../src/formulas/tokens.js";
import { functions } from "./functions.js";

/** A call in a formula: from its name up to behind its closing bracket. */
interface CallInText {
  readonly id: string;
  readonly start: number;
  readonly end: number;
}

interface ReadCall extends CallInText {
  /** Of each argument, where it begins and ends; undefined where it is left out. */
  readonly args: readonly (readonly [number, number] | undefined)[];
}

/** As the walk finds them. */
function walked(formula: string): ReadCall[] {
  const { tokens, calls } = parseFormula(formula, functions);
  const behind = (piece: (typeof tokens)[number] | undefined): number =>
    piece ? piece.from + piece.value.length : -1;
  return calls.map(({ function: { id }, first, last, args }) => ({
    id,
    start: tokens[first]?.from ?? -1,
    end: behind(tokens[last]),
    args: args.map((argument) =>
      argument[0] ? ([argument[0].from, behind(argument.at(-1))] as const) : undefined,
    ),
  }));
}

interface ParsedCall extends CallInText {
  readonly args: readonly (AstExpression | null)[];
}

/** As the parser finds them: each after those that it contains. */
function parsed(root: AstExpression): ParsedCall[] {
  switch (root.type) {
    case "CallExpression": {
      const { callee, arguments: args, loc: [start = -1, end = -1] = [] } = root;
      const inner = args.flatMap(parsedOrNone);
      const own = functions.find(callee.name);
      return own ? [...inner, { id: own.id, start, end, args }] : inner;
    }
    case "UnaryExpression":
    case "BinaryExpression":
      return root.arguments.flatMap(parsed);
    case "ArrayExpression":
      return root.elements.flat().flatMap(parsed);
    case "LetExpression":
      return [...root.declarations.flatMap(({ init }) => parsedOrNone(init)), ...parsedOrNone(root.body)];
    case "LambdaExpression":
      return parsedOrNone(root.body);
    case "Literal":
    case "ErrorLiteral":
    case "ReferenceIdentifier":
      return [];
  }
}

const parsedOrNone = (node: AstExpression | null): ParsedCall[] => (node ? parsed(node) : []);

/** Undefined for a formula that the parser does not read. */
function tree(formula: string): AstExpression | undefined {
  try {
    return parse(tokenize(formula, { withLocation: true }), { looseRefCalls: true });
  } catch {
    return undefined;
  }
}

const blank = fc.constantFrom("", "", "", " ", "\n ");
const name = fc.constantFrom(
  ...["GYLE.ABV", "gyle.Convert", "_xldudf_GYLE_HYDROMETER", "_xlfn._xldudf_GYLE_SEASON", "GYLE.INSTRUMENT"],
  ...["SUM", "IF", "_xlfn.IFNA", "GYLE.NOSUCH", "MYGYLE.ABV"],
);
const operand = fc.oneof(
  fc.constantFrom("A1", "$B$2:C3", "A:A", "'Brew (1), day'!B7", "Log!3:4", "D4#", "final", "Batches[@OG]"),
  fc.constantFrom(
    "Batches[[#Headers],[a,(b]:[c]]",
    "[2]Log!A1",
    "1046",
    "1.046e3",
    "-2",
    "TRUE",
    "#N/A",
    "#REF!",
  ),
  fc.constantFrom(
    '"GYLE.ABV(A1,B1)"',
    '"a "",( b"',
    '""',
    '"Old glass"',
    '{"Old glass","New"}',
    "{1,2;3,-4}",
  ),
);
const { formula } = fc.letrec<{ node: string; argument: string; formula: string }>((tie) => {
  const call = fc
    .tuple(name, fc.array(tie("argument"), { maxLength: 4 }))
    .map(([callee, args]) => `${callee}(${args.join(",")})`);
  return {
    node: fc.oneof(
      { maxDepth: 5 },
      operand,
      { arbitrary: call, weight: 4 },
      fc
        .tuple(
          tie("node"),
          blank,
          fc.constantFrom("+", "-", "*", "/", "^", "&", "=", "<>", ">="),
          blank,
          tie("node"),
        )
        .map((all) => all.join("")),
      tie("node").map((inner) => `(${inner})`),
      tie("node").map((inner) => `${inner}%`),
      fc.tuple(fc.constantFrom("-", "+", "@"), tie("node")).map(([sign, inner]) => `${sign}(${inner})`),
      fc
        .tuple(tie("argument"), tie("argument"))
        .map(([value, body]) => `LET(x,${value || 1},${body || "x"})`),
      tie("node").map((body) => `MAP(A1:A9,LAMBDA(each,${body}))`),
    ),
    argument: fc.oneof(
      { maxDepth: 5 },
      { arbitrary: fc.tuple(blank, tie("node"), blank).map((all) => all.join("")), weight: 9 },
      fc.constant(""),
    ),
    formula: fc
      .tuple(blank, tie("node"), blank)
      .map(([before, node, behind]) => `=${before}${node}${behind}`),
  };
});

describe("a formula that a parser can read", () => {
  test("has the same calls with the same arguments", () => {
    let read = 0;
    fc.assert(
      fc.property(formula, (text) => {
        const root = tree(text);
        if (!root) return;
        read++;
        const [ours, theirs] = [walked(text), parsed(root)];
        const place = ({ id, start, end }: CallInText) => ({ id, start, end });
        expect(ours.map(place)).toEqual(theirs.map(place));
        for (const [i, { args }] of ours.entries()) {
          const others = theirs[i]?.args ?? [];
          expect(args.map((argument) => argument === undefined)).toEqual(others.map((node) => node === null));
          // The parser leaves brackets around an argument out, and says of a spilled range where its "#" stands.
          for (const [n, argument] of args.entries()) {
            const [start, end] = others[n]?.loc ?? [];
            if (!argument || start === undefined || end === undefined) continue;
            expect([start >= argument[0], end <= argument[1]]).toEqual([true, true]);
          }
        }
      }),
      { numRuns: 1000 },
    );
    expect(read).toBe(1000);
  });
});

describe("a formula that is not well-formed, which no parser reads,", () => {
  test("has the calls that are complete, wherever it is cut short", () => {
    fc.assert(
      fc.property(formula, fc.nat(), (text, cut) => {
        const length = cut % (text.length + 1);
        expect(walked(text.slice(0, length))).toEqual(walked(text).filter(({ end }) => end <= length));
      }),
      { numRuns: 1000 },
    );
  });

  test("keeps its calls beside something stray", () => {
    fc.assert(
      fc.property(formula, fc.constantFrom(")", "}", ";", "*", "]", "\\", "?"), (text, stray) => {
        expect(walked(text + stray)).toEqual(walked(text));
      }),
      { numRuns: 1000 },
    );
  });

  test("is taken to pieces that are its text again, whatever was changed in it", () => {
    const changed = fc.tuple(formula, fc.nat(), fc.nat(3), fc.string({ maxLength: 3 }));
    fc.assert(
      fc.property(changed, ([text, at, less, more]) => {
        const from = at % text.length;
        const damaged = text.slice(0, from) + more + text.slice(from + less);
        expect(
          formulaTokens(damaged)
            .map(({ value }) => value)
            .join(""),
        ).toBe(damaged);
        for (const { start, end } of walked(damaged))
          expect(damaged.slice(start, end)).toMatch(/^[^"]*\([^]*[)}]$/);
        expect(foundCalls(damaged, functions).length).toBe(walked(damaged).length);
      }),
      { numRuns: 1000 },
    );
  });
});

test("calls as deep as 8,192 characters allow are all found", () => {
  const deep = Math.floor((8192 - 2) / "GYLE.ABV()".length);
  const text = `=${"GYLE.ABV(".repeat(deep)}1${")".repeat(deep)}`;
  const found = foundCalls(text, functions);
  expect(found.length).toBe(deep);
  expect(found.at(-1)).toEqual({ name: "ABV", args: [{ call: deep - 2 }], isWhole: true });
});
