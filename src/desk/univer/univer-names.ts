// Univer's ids for what the file numbers.

export const sheetId = (index: number): string => `s${index}`;

/** Univer's id of a style from the file; it is kept when cells are copied. */
export const styleId = (style: number): string => `f${style}`;

/** The file's number of a style with such an id. */
export function fileStyle(id: string | undefined): number | undefined {
  const number = /^f(\d+)$/.exec(id ?? "")?.[1];
  return number === undefined ? undefined : Number(number);
}
