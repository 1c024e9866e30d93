// The names by which Univer has what the file has by number.

export const sheetId = (index: number): string => `s${index}`;

/** Univer's name for a style that the file has; it keeps these names as cells are copied. */
export const styleId = (style: number): string => `f${style}`;

/** The file's number of a style that goes by such a name. */
export function fileStyle(id: string | undefined): number | undefined {
  const number = /^f(\d+)$/.exec(id ?? "")?.[1];
  return number === undefined ? undefined : Number(number);
}
