// How the sheets of an example are written down.

/** A formula that calls ours. */
export interface Ours {
  readonly ours: string;
  readonly format?: string;
  /** It fills as many cells as it has results. */
  readonly spills?: true;
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

export const title = (value: string): Styled => ({ value, bold: true });
export const heads = (...names: string[]): Styled[] =>
  names.map((value) => ({ value, bold: true, wide: true }));
