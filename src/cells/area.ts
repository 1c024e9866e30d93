import type { Place } from "./place.js";

/** A rectangle of cells, both ends included. Rows and columns count from 0. */
export interface Area {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** An area of one sheet; whole columns and rows reach to the last. */
export interface SheetArea extends Area {
  readonly sheet: string;
}

/** One cell as an area. */
export const areaOf = ({ row, column }: Place): Area => ({
  top: row,
  left: column,
  bottom: row,
  right: column,
});

/** Whether two areas cover the same cells. */
export function sameArea(a: Area | undefined, b: Area | undefined): boolean {
  return a?.top === b?.top && a?.left === b?.left && a?.bottom === b?.bottom && a?.right === b?.right;
}

export function forEachCell(area: Area, f: (row: number, column: number) => void): void {
  for (let row = area.top; row <= area.bottom; row++)
    for (let column = area.left; column <= area.right; column++) f(row, column);
}
