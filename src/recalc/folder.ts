import { readdir, realpath } from "node:fs/promises";
import type { Dirent } from "node:fs";
import { extname, join, resolve } from "node:path";
import { isCopy } from "../handover/way.js";

/** What a folder holds for the command. */
export interface FolderContent {
  /** Paths of the workbooks, below the folder, in order. */
  readonly workbooks: readonly string[];
  /** What looks as if it should be taken and is not, with the reason in brackets. */
  readonly passedOver: readonly string[];
}

/** Lock files of Excel begin with "~$"; those of LibreOffice, ours and other hidden ones with ".". */
const isHidden = (name: string): boolean => /^(~\$|\.)/.test(name);

const isWorkbook = (name: string): boolean => /\.xls[xm]$/i.test(name);

/** Spreadsheets of other kinds. A table of text is no workbook that anyone would miss. */
const isOther = (name: string): boolean => /\.(xls|xlsb|xlt[xm]?|ods|fods|ots|numbers)$/i.test(name);

/** What is one file under two names is the same file. */
export const sameFile = async (path: string): Promise<string> => realpath(path).catch(() => resolve(path));

/**
 * Looks through a folder and those inside it. Links to folders are not followed, since they may lead round in a circle.
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

/** A link beside the file that it names gives way to it. */
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
