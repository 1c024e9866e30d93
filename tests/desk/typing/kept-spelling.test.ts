// Formulas that Univer moves, or whose cells it moves, stay as they are spelled but for the references.
import { LexerTreeBuilder, type ISequenceNode } from "@univerjs/engine-formula";
import { expect, test } from "vitest";
import { keepSpelling } from "../../../src/desk/typing/kept-spelling.js";
import type { UniverSheet } from "../../../src/desk/univer/univer.js";
import { anyFormulas } from "../../support/any-formula.js";

const builder = new LexerTreeBuilder();
keepSpelling({ univer: { __getInjector: () => ({ get: () => builder }) } } as unknown as UniverSheet);

const text = (node: string | ISequenceNode): string => (typeof node === "string" ? node : node.token);

test("the pieces of a formula, put together, are the formula, and each says where it stands", () => {
  for (const { typed } of anyFormulas(1, 1000))
    for (const formula of [typed, `=${typed}`]) {
      const nodes = builder.sequenceNodesBuilder(formula) ?? [];
      expect(nodes.map(text).join("")).toBe(typed);
      for (const node of nodes)
        if (typeof node !== "string")
          expect(typed.slice(node.startIndex, node.endIndex + 1)).toBe(node.token);
    }
});

test("only references move", () => {
  for (const formula of anyFormulas(2, 1000))
    expect(builder.moveFormulaRefOffset(`=${formula.stored(0)}`, 0, 7)).toBe(`=${formula.stored(7)}`);
});

test("a reference that would leave the sheet is lost, and says so", () => {
  expect(builder.moveFormulaRefOffset("=A1+'It''s'!B2&\"a\"\"b\"", 0, -1)).toBe(
    "=#REF!+'It''s'!B1&\"a\"\"b\"",
  );
});
