import { LexerTreeBuilder, sequenceNodeType, type ISequenceNode } from "@univerjs/engine-formula";
import { formulaCopy, type FormulaCopy } from "../workbook/formula-copy.js";
import type { Engine } from "./univer.js";

/** In the middle of a sheet, so that every move stays inside. Only the way from one cell to the other counts. */
const FROM = { row: 524_288, column: 8192 };

/** Filling a column asks for one formula again and again. */
const MOST_KEPT = 1000;

/**
 * Has formulas stay as they are spelled but for their references, where they are filled, copied and pasted, and where cells move
 * that they refer to. By itself Univer loses one of two quotes in a text, blanks, and the name of the sheet a formula stands in.
 */
export function keepSpelling({ univer }: Engine): void {
  const builder = univer.__getInjector().get(LexerTreeBuilder);
  const copies = new Map<string, FormulaCopy>();
  builder.moveFormulaRefOffset = (formula, columns, rows) => {
    let copy = copies.get(formula);
    if (!copy) {
      if (copies.size >= MOST_KEPT) copies.clear();
      copy = formulaCopy(formula, FROM.row, FROM.column, "error");
      copies.set(formula, copy);
    }
    return copy(FROM.row + rows, FROM.column + columns);
  };

  const build = builder.sequenceNodesBuilder.bind(builder);
  builder.sequenceNodesBuilder = (formula) => {
    const nodes = build(formula);
    return nodes && asWritten(nodes, formula.replace(/^=/, ""));
  };
}

type Nodes = (string | ISequenceNode)[];

/** The same pieces of a formula, each as the formula has it. */
function asWritten(nodes: Nodes, formula: string): Nodes {
  const written = nodes.flatMap((node): Nodes => {
    if (typeof node === "string") return [node];
    const token = formula.slice(node.startIndex, node.endIndex + 1);
    if (node.nodeType !== sequenceNodeType.REFERENCE) return [{ ...node, token }];
    // Whoever writes a reference anew writes it without the blanks around it.
    const [before, after] = [/^\s*/, /\s*$/].map((blanks) => blanks.exec(token)?.[0] ?? "") as [
      string,
      string,
    ];
    const bare = {
      ...node,
      token: token.trim(),
      startIndex: node.startIndex + before.length,
      endIndex: node.endIndex - after.length,
    };
    return [before, bare, after].filter((piece) => piece !== "");
  });
  const joined = written.map((node) => (typeof node === "string" ? node : node.token)).join("");
  return joined === formula ? written : nodes;
}
