import { readdir, realpath } from "node:fs/promises";
import type { Dirent } from "node:fs";
import { extname, join, resolve } from "node:path";
import { isCopy } from "../handover/way.js";

/** Content of a folder, as far as it concerns the command. */
export interface FolderContent {
  /** Paths of the workbooks, relative to the folder, sorted. */
  readonly workbooks: readonly string[];
  /** Files that one might expect to be taken but are not, with the reason in brackets. */
  readonly passedOver: readonly string[];
}

/** Lock files of Excel begin with "~$"; those of LibreOffice, ours and other hidden ones with ".". */
const isHidden = (name: string): boolean => /^(~\$|\.)/.test(name);

const isWorkbook = (name: string): boolean => /\.xls[xm]$/i.test(name);

/** Spreadsheets of other kinds. Nobody would expect a text table to be taken for a workbook. */
const isOther = (name: string): boolean => /\.(xls|xlsb|xlt[xm]?|ods|fods|ots|numbers)$/i.test(name);

/** Two names of the same file have the same result. */
export const sameFile = async (path: string): Promise<string> => realpath(path).catch(() => resolve(path));

/**
 * Scans a folder and its subfolders. Links to folders are not followed, since they may be circular.
 *
 * @param output a folder for results, which are not taken for workbooks again
 */
export async function contentOf(folder: string, output: string | undefined): Promise<FolderContent> {
  const results = output === undefined ? undefined : await sameFile(output);
  const workbooks: { readonly path: string; readonly isLink: boolean }[] = [];
  const passedOver: string[] = [];
  async function look(inside: string): Promise<void> {
    const path = join(folder, inside);
    if (inside !== "" && results !== undefined && (await sameFile(path)) === results) return;
    for (const entry of await entriesOf(path, inside)) {
      const name = join(inside, entry.name);
      if (isHidden(entry.name)) continue;
      if (entry.isDirectory() && !isOther(entry.name)) await look(name);
      else if (isWorkbook(entry.name) && isCopy(entry.name)) passedOver.push(`${name} (a copy to hand over)`);
      else if (isWorkbook(entry.name)) workbooks.push({ path: name, isLink: entry.isSymbolicLink() });
      else if (isOther(entry.name)) passedOver.push(`${name} (${extname(name).toLowerCase()}, not .xlsx)`);
      else if (entry.isSymbolicLink() && (await isFolder(join(folder, name))))
        passedOver.push(`${name} (a link to a folder)`);
    }
  }
  async function entriesOf(path: string, inside: string): Promise<readonly Dirent[]> {
    try {
      return await readdir(path, { withFileTypes: true });
    } catch (error) {
      if (inside === "") throw error;
      passedOver.push(`${inside} (a folder that you may not read)`);
      return [];
    }
  }
  await look("");
  return { workbooks: (await eachOnce(folder, workbooks)).sort(), passedOver };
}

const isFolder = async (path: string): Promise<boolean> =>
  readdir(path).then(
    () => true,
    () => false,
  );

/** A link is dropped if the file that it names is listed as well. */
async function eachOnce(
  folder: string,
  found: readonly { readonly path: string; readonly isLink: boolean }[],
): Promise<string[]> {
  const taken = new Map<string, string>();
  for (const { path } of [...found].sort((a, b) => Number(a.isLink) - Number(b.isLink))) {
    const file = await sameFile(join(folder, path));
    if (!taken.has(file)) taken.set(file, path);
  }
  return [...taken.values()];
}
