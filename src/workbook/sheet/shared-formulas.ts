import type { StoredFormula } from "./cell-read.js";
import type { Cell } from "../model.js";
import { formulaCopy } from "./formula-copy.js";
import type { SharedFormula } from "./sheet-layout.js";

interface Group extends SharedFormula {
  readonly dependants: { row: number; column: number }[];
}
interface Pending {
  /** Index of the cell in its sheet. */
  readonly cell: number;
  readonly si: string;
  readonly group: Group | undefined;
}

/** Follows the shared formulas of a sheet while it is read: one cell holds the text, others refer to it by number. */
export class SharedFormulas {
  private readonly groups: Group[] = [];
  private readonly latest = new Map<string, Group>();
  private readonly pending: Pending[] = [];

  /** A cell that holds the text. A number may be reused further down. */
  hold({ si, text }: StoredFormula, row: number, column: number): void {
    const group: Group = { text, row, column, dependants: [] };
    this.groups.push(group);
    if (si !== undefined) this.latest.set(si, group);
  }

  /** A cell that refers to the text, by its index in the sheet. */
  refer({ si = "" }: StoredFormula, cell: number): void {
    this.pending.push({ cell, si, group: this.latest.get(si) });
  }

  /**
   * Expands the formulas for the cells that refer to them.
   *
   * @param cells of the sheet; those that refer to a shared formula get theirs
   * @returns undefined if a cell refers to a missing formula
   */
  resolve(cells: Cell[]): SharedFormula[] | undefined {
    const copies = new Map<Group, ReturnType<typeof formulaCopy>>();
    for (const { cell: index, si, group: earlier } of this.pending) {
      const group = earlier ?? this.latest.get(si);
      const cell = cells[index];
      if (!group || !cell) return undefined;
      const { row, column, value } = cell;
      group.dependants.push({ row, column });
      const copy = copies.get(group) ?? formulaCopy(group.text, group.row, group.column);
      copies.set(group, copy);
      cells[index] = { row, column, value, formula: { text: copy(row, column), kind: "plain" } };
    }
    return this.groups;
  }
}
