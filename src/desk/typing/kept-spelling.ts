import { tokenize, tokenTypes } from "@borgar/fx/xlsx";
import { LexerTreeBuilder, sequenceNodeType, type ISequenceNode } from "@univerjs/engine-formula";
import { formulaCopy, type FormulaCopy } from "../../workbook/sheet/formula-copy.js";
import type { UniverSheet } from "../univer/univer.js";

/** In the middle of a sheet, so that every move stays inside. Only the way from one cell to the other counts. */
const FROM = { row: 524_288, column: 8192 };

/** Filling a column asks for one formula again and again. */
const MOST_KEPT = 1000;

/**
 * Has formulas stay as they are spelled but for their references, where they are filled, copied and pasted, and where cells move
 * that they refer to. By itself Univer loses one of two quotes in a text, blanks, and the name of the sheet a formula stands in.
 */
export function keepSpelling({ univer }: UniverSheet): void {
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

/** Texts and arrays, of which Univer loses every second quote. */
const quoted = /\s*(?:"(?:[^"]|"")*"|\{(?:"(?:[^"]|"")*"|[^"}])*\})\s*/y;

/** The same pieces of a formula, each as the formula has it and where it stands there. */
function asWritten(nodes: Nodes, formula: string): Nodes {
  const written: Nodes = [];
  let at = 0;
  const add = (node: ISequenceNode, length: number): void => {
    written.push({
      ...node,
      token: formula.slice(at, at + length),
      startIndex: at,
      endIndex: at + length - 1,
    });
    at += length;
  };
  for (const node of nodes) {
    if (typeof node === "string") {
      written.push(node);
      at += node.length;
      continue;
    }
    quoted.lastIndex = at;
    const length = quoted.exec(formula)?.[0].length ?? node.token.length;
    if (node.nodeType !== sequenceNodeType.REFERENCE) add(node, length);
    else {
      // Whoever writes a reference anew writes it without the blanks around it.
      const [, before = "", after = ""] = /^(\s*).*?(\s*)$/s.exec(node.token) ?? [];
      const blanks = (piece: string): void => {
        if (piece !== "") written.push(piece);
        at += piece.length;
      };
      blanks(before);
      add(node, node.token.length - before.length - after.length);
      blanks(after);
    }
  }
  const joined = written.map((node) => (typeof node === "string" ? node : node.token)).join("");
  return joined === formula ? written : pieces(formula);
}

const references = new Set<string>([tokenTypes.REF_RANGE, tokenTypes.REF_BEAM]);

/** A formula of which Univer has lost more: what is no reference is left as it is. */
function pieces(formula: string): Nodes {
  let at = 0;
  return tokenize(formula, { withLocation: false }).map(({ type, value }) => {
    const startIndex = at;
    at += value.length;
    const isReference = references.has(type);
    return isReference
      ? { nodeType: sequenceNodeType.REFERENCE, token: value, startIndex, endIndex: at - 1 }
      : value;
  });
}
