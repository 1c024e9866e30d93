import { tokenize, tokenTypes } from "@borgar/fx/xlsx";
import { LexerTreeBuilder, sequenceNodeType, type ISequenceNode } from "@univerjs/engine-formula";
import { formulaCopy, type FormulaCopy } from "../../workbook/sheet/formula-copy.js";
import type { UniverSheet } from "../univer/univer.js";

/** In the middle of a sheet, so that every move stays inside. Only the offset from one cell to the other matters. */
const FROM = { row: 524_288, column: 8192 };

/** The most formulas cached; filling a column asks for the same one again and again. */
const MOST_KEPT = 1000;

/**
 * Keeps the spelling of formulas except for their references when they are filled, copied or pasted, and when cells
 * that they refer to move. Without it Univer loses one of two doubled quotes in a text, spaces, and the name of the
 * sheet that contains the formula.
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

/** Texts and arrays, in which Univer loses every second quote. */
const quoted = /\s*(?:"(?:[^"]|"")*"|\{(?:"(?:[^"]|"")*"|[^"}])*\})\s*/y;

/** The same nodes, with tokens and positions as in the formula. */
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
      // Code that rewrites a reference drops the spaces around it.
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

/** Nodes of a formula of which Univer has lost more: everything but references stays as it is. */
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
