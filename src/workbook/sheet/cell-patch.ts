import { areaText } from "../../cells/a1.js";
import { storedError, writeFormula, writeValue, type WrittenValue } from "./cell-write.js";
import { escapeString } from "../xml/escaped-string.js";
import type { FormulaChange } from "./formula-change.js";
import type { Cell, CellValue } from "../model.js";
import { setAttribute, removeElement, type Splice } from "../xml/xml-splice.js";
import { escapeText } from "../xml/xml-text.js";
import { attributeOf, childrenOf, parseXml, type XmlElement } from "../xml/xml-tree.js";

/** A cell to change, and its new content. */
export interface CellTask {
  readonly row: number;
  readonly column: number;
  readonly stored: Cell | undefined;
  readonly value: CellValue;
  readonly formula: FormulaChange;
  /** For a cell that is not in the file yet. */
  readonly style?: number | undefined;
}

/** Whether the cell already holds the value. Errors are compared as a file can store them. */
export function holdsValue(stored: Cell | undefined, value: CellValue): boolean {
  const held = stored?.value ?? null;
  if (held === null || value === null || typeof held !== "object" || typeof value !== "object")
    return held === value;
  return storedError(held.error) === storedError(value.error);
}

/**
 * Edits inside one <c> element. Everything unchanged keeps its bytes: style, other attributes, white space.
 *
 * @param xml the element's text
 * @param cm metadata index for a formula that is to spill
 * @returns the edits, and whether a formula was set or removed
 */
export function editCell(
  part: string,
  xml: string,
  prefix: string,
  task: CellTask,
  cm: number | undefined,
): { edits: Splice[]; formulaChanged: boolean } {
  const cell = parseXml(part, xml);
  // If there are several, as in a damaged file, the last is the one that was read.
  const fs = childrenOf(cell, "f");
  const f = fs.at(-1);
  const { stored, value, formula } = task;
  const hadFormula = f !== undefined;
  const hasFormula = formula.to === "keep" ? hadFormula : formula.to !== "nothing";
  const edits: Splice[] = formula.to === "keep" ? [] : fs.slice(0, -1).map(removeElement);

  let newFormula = "";
  if (formula.to === "formula") {
    const text = writeFormula(formula.formula, task.row, task.column, prefix);
    if (f) edits.push({ start: f.start, end: f.end, text });
    else newFormula = text;
  } else if (f) edits.push(...editFormula(xml, f, formula));
  edits.push(...setMetadata(xml, cell, stored, formula, cm));

  // Text is stored differently with and without a formula.
  const rewrites = !holdsValue(stored, value) || (typeof value === "string" && hasFormula !== hadFormula);
  const written = rewrites ? writeValue(value, hasFormula, prefix) : undefined;
  if (written) edits.push(...setType(xml, cell, written));
  edits.push(...setContent(cell, f, newFormula, written));
  return {
    edits,
    formulaChanged: formula.to !== "keep" && formula.to !== "area" && (hadFormula || hasFormula),
  };
}

function editFormula(xml: string, f: XmlElement, change: FormulaChange): Splice[] {
  switch (change.to) {
    case "area":
      return setAttribute(xml, f, "ref", areaText(change.area));
    case "nothing":
      return [removeElement(f)];
    case "own": {
      const text = escapeText(escapeString(change.text));
      const content = f.selfClosing
        ? { start: f.openEnd - 2, end: f.openEnd, text: `>${text}</${f.name}>` }
        : { start: f.openEnd, end: f.closeStart, text };
      return [...["t", "ref", "si"].flatMap((name) => setAttribute(xml, f, name, undefined)), content];
    }
    case "keep":
    case "formula":
      return [];
  }
}

/**
 * "cm" belongs to the formula: it is set for one that spills, and removed when such a formula is replaced or removed.
 */
function setMetadata(
  xml: string,
  cell: XmlElement,
  stored: Cell | undefined,
  change: FormulaChange,
  cm: number | undefined,
): Splice[] {
  const spilled = stored?.formula?.kind === "spill";
  const spills = change.to === "formula" && change.formula.kind === "spill";
  if (spills && !spilled) return setAttribute(xml, cell, "cm", String(cm));
  const ends = change.to === "nothing" || (change.to === "formula" && !spills);
  return ends && spilled ? setAttribute(xml, cell, "cm", undefined) : [];
}

/** "vm" describes the old value, so it is removed. */
function setType(xml: string, cell: XmlElement, { type }: WrittenValue): Splice[] {
  const explicit = attributeOf(cell, "t") === "n" && type === undefined ? "n" : type;
  return [...setAttribute(xml, cell, "t", explicit), ...setAttribute(xml, cell, "vm", undefined)];
}

function setContent(
  cell: XmlElement,
  f: XmlElement | undefined,
  newFormula: string,
  written: WrittenValue | undefined,
): Splice[] {
  const body = written?.body ?? "";
  if (cell.selfClosing) {
    if (newFormula + body === "") return [];
    return [{ start: cell.openEnd - 2, end: cell.openEnd, text: `>${newFormula}${body}</${cell.name}>` }];
  }
  const edits: Splice[] =
    newFormula === "" ? [] : [{ start: cell.openEnd, end: cell.openEnd, text: newFormula }];
  if (!written) return edits;
  const [first, ...others] = [...childrenOf(cell, "v"), ...childrenOf(cell, "is")];
  const at = f?.end ?? cell.openEnd;
  edits.push({ start: first?.start ?? at, end: first?.end ?? at, text: body });
  return [...edits, ...others.map(removeElement)];
}
