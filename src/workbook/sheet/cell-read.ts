import { parseArea } from "../../cells/a1.js";
import { storedValue, type ValueContext } from "./cell-value.js";
import { unescapeString } from "../xml/escaped-string.js";
import type { CellValue, Formula } from "../model.js";
import type { Writable } from "../xml/writable.js";
import { preservesSpace, StringItem } from "../xml/string-item.js";
import type { OpenTag } from "../xml/xml-events.js";

/** What a sheet's cells refer to outside their part. */
export interface SheetContext extends ValueContext {
  /** Values of a cell's "cm" that mark a dynamic array. */
  readonly dynamic: ReadonlySet<number>;
}

/** The <f> element of a cell. */
export interface StoredFormula {
  readonly type: string;
  readonly text: string;
  readonly ref: string | undefined;
  readonly si: string | undefined;
}

/** Collects one cell at a time: its attributes, then its content. */
export class CellReader {
  private type = "";
  private cm = 0;
  private field = "";
  private valueText: string | undefined;
  private preserved = false;
  private formula: Writable<StoredFormula> | undefined;
  private inline = false;
  private readonly item = new StringItem();

  constructor(private readonly context: SheetContext) {}

  start(tag: OpenTag): void {
    this.type = tag.value("t") ?? "n";
    this.cm = Number(tag.value("cm") ?? 0);
    this.valueText = undefined;
    this.formula = undefined;
    this.inline = false;
  }

  /** A direct child of the cell, by its local name; foreign ones have none. */
  openField(local: string, tag: OpenTag): void {
    this.field = local;
    if (local === "v") {
      this.valueText = "";
      this.preserved = preservesSpace(tag);
    } else if (local === "f") {
      this.formula = { type: tag.value("t") ?? "", text: "", ref: tag.value("ref"), si: tag.value("si") };
    } else if (local === "is") this.inline = true;
  }

  closeField(): void {
    this.field = "";
  }

  /** A deeper element. */
  open(tag: OpenTag): void {
    if (this.field === "is") this.item.open(tag);
  }

  close(): void {
    if (this.field === "is") this.item.close();
  }

  text(data: string): void {
    if (this.field === "v") this.valueText = (this.valueText ?? "") + data;
    else if (this.field === "is") this.item.text(data);
    else if (this.field === "f" && this.formula) this.formula.text += data;
  }

  /** @returns undefined if the stored text is not a value of the stored type */
  value(): CellValue | undefined {
    if (this.inline) return this.item.take();
    return this.valueText === undefined
      ? null
      : storedValue(this.type, this.valueText, this.preserved, this.context);
  }

  /** Type and text as stored, for an error message. */
  get stored(): string {
    return `"${(this.valueText ?? "").slice(0, 20)}" as type "${this.type}"`;
  }

  /** The <f> element, unless it holds no calculation: results of a data table are plain values. */
  storedFormula(): StoredFormula | undefined {
    if (!this.formula || this.formula.type === "dataTable") return undefined;
    const { type, text, ref, si } = this.formula;
    return { type, text: unescapeString(text), ref, si };
  }

  /** A formula with its own text, for the model. */
  ownFormula({ type, text, ref }: StoredFormula, row: number, column: number): Formula {
    if (type !== "array") return { text, kind: "plain" };
    const area = parseArea(ref ?? "") ?? { top: row, left: column, bottom: row, right: column };
    return { text, kind: this.context.dynamic.has(this.cm) ? "spill" : "array", area };
  }
}
