/** Where a cell's element is in its sheet's part. */
export interface CellSpot {
  readonly row: number;
  readonly column: number;
  readonly start: number;
  readonly end: number;
}

/** Where a row's element is. */
export interface RowSpot {
  readonly row: number;
  readonly start: number;
  readonly openEnd: number;
  /** At its closing tag. */
  readonly closeStart: number;
  readonly end: number;
  /** Every <c> element, including styled ones without a value. */
  readonly cells: readonly CellSpot[];
}

/** A direct child of <worksheet>. */
export interface SheetChild {
  readonly name: string;
  readonly start: number;
  readonly openEnd: number;
  readonly closeStart: number;
  readonly end: number;
}

/** Cells that share one formula. */
export interface SharedFormula {
  readonly text: string;
  readonly row: number;
  readonly column: number;
  readonly dependants: readonly { readonly row: number; readonly column: number }[];
}

/** What must be known of a sheet's part to edit it in place. */
export interface SheetLayout {
  readonly part: string;
  readonly xml: string;
  /** Prefix of its element names, with ":", or empty. */
  readonly prefix: string;
  readonly namespace: string;
  /** Prefix that its root declares for r:id, if any. */
  readonly relationshipPrefix: string | undefined;
  readonly rows: readonly RowSpot[];
  readonly children: readonly SheetChild[];
  readonly shared: readonly SharedFormula[];
}

/** Whether an element consists of one tag. */
export function isSelfClosing({ openEnd, end }: { readonly openEnd: number; readonly end: number }): boolean {
  return openEnd === end;
}

/** First index in a sorted list whose value is not below the wanted one. */
export function lowerBound<T>(list: readonly T[], value: (item: T) => number, wanted: number): number {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    const item = list[middle];
    if (item !== undefined && value(item) < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}
