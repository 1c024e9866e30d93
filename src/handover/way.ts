const suffixes = { share: "shared", values: "values", live: "live" };

/** As it is, as values, or live without the add-in. */
export type Way = keyof typeof suffixes;

export const ways = Object.keys(suffixes) as readonly Way[];

/** Whether a workbook has the name of a copy, or the name that a browser gives to a second one. */
export const isCopy = (name: string): boolean =>
  new RegExp(`-(?:${Object.values(suffixes).join("|")})(?: ?\\(\\d+\\))?\\.[^./\\\\]*$`, "i").test(name);

/** Name of a copy. @param name of the workbook, with or without its folder, and with its extension */
export function copyName(name: string, way: Way): string {
  const extension = /\.[^./\\]*$/.exec(name)?.[0] ?? "";
  return `${name.slice(0, name.length - extension.length)}-${suffixes[way]}${extension}`;
}
