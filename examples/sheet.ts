// What an example workbook is made of.

/** A formula that calls ours. */
export interface Ours {
  readonly ours: string;
  readonly format?: string;
  /** Rows and columns that it fills. What stands in those cells here is only their format. */
  readonly spills?: readonly [rows: number, columns: number];
}

/** A formula of the spreadsheet's own. */
export interface Native {
  readonly native: string;
  readonly format?: string;
}

export interface Styled {
  readonly value: string | number | Date;
  readonly format?: string;
  readonly bold?: true;
  readonly wide?: true;
}

/** A cell that is empty, but for how it will show a number. */
export interface Room {
  readonly room: string;
}

export type Content = string | number | undefined | Ours | Native | Styled | Room;

export interface ExampleSheet {
  readonly name: string;
  readonly widths: readonly number[];
  readonly frozenRows?: number;
  readonly rows: readonly (readonly Content[])[];
}

export const GRAVITY = "0.0000";
export const PERCENT = "0.00";
export const ONE = "0.0";

export const ours = (formula: string, format = GRAVITY): Ours => ({ ours: formula, format });
/** Blank where a cell is: an empty result of ours would do in Excel, but other programs lose it. */
export const unlessBlank = (cell: string, formula: string, format?: string): Ours =>
  ours(`IF(${cell}="","",${formula})`, format);
export const native = (formula: string, format: string): Native => ({ native: formula, format });
export const title = (value: string): Styled => ({ value, bold: true });
export const heads = (...names: string[]): Styled[] =>
  names.map((value) => ({ value, bold: true, wide: true }));
