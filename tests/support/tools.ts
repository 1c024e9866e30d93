import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";

/** A program that some checks need and that no package brings. */
export interface Tool {
  readonly name: string;
  /** Its path, or undefined where it is not installed. */
  readonly path: string | undefined;
  readonly present: boolean;
  /** What is not checked without it. */
  readonly checks: string;
  readonly install: string;
}

function find(...commands: readonly string[]): string | undefined {
  for (const folder of (process.env["PATH"] ?? "").split(delimiter))
    for (const command of commands)
      try {
        const path = join(folder, command);
        accessSync(path, constants.X_OK);
        return path;
      } catch {
        // not in this folder
      }
  return undefined;
}

function tool(name: string, commands: readonly string[], checks: string, packageName: string): Tool {
  const path = find(...commands);
  return { name, path, present: path !== undefined, checks, install: `apt-get install ${packageName}` };
}

export const libreOffice = tool(
  "LibreOffice",
  ["soffice", "libreoffice"],
  "workbooks against an independent spreadsheet",
  "libreoffice-calc",
);

export const xmllint = tool(
  "xmllint",
  ["xmllint"],
  "written XML against an independent parser",
  "libxml2-utils",
);

export const chromium = tool(
  "Chromium",
  ["chromium", "chromium-browser", "google-chrome"],
  "the add-in's page in a real browser",
  "chromium",
);

export const tools: readonly Tool[] = [libreOffice, xmllint, chromium];
