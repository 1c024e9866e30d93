const suffixes = { share: "shared", values: "values", live: "live" };

/** As it is, as values, or live without the add-in. */
export type Way = keyof typeof suffixes;

export const ways = Object.keys(suffixes) as readonly Way[];

/** What a copy is called. @param name of the workbook, with or without its folder and with its extension */
export function copyName(name: string, way: Way): string {
  const extension = /\.[^./\\]*$/.exec(name)?.[0] ?? "";
  return `${name.slice(0, name.length - extension.length)}-${suffixes[way]}${extension}`;
}
