import { accessSync, constants, existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";

/** A program, or a set of files, that some checks need and that no package brings. */
export interface Tool {
  readonly name: string;
  /** Its path; undefined for a program that is not installed. */
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

const schemaFolder =
  process.env["OFFICE_SCHEMAS"] ?? fileURLToPath(new URL("../../../shared/platform/xsd", import.meta.url));

/** Microsoft's schemas, which are not ours to hand on. */
export const officeSchemas: Tool = {
  name: "the schemas of Office manifests",
  path: schemaFolder,
  present: existsSync(schemaFolder),
  checks: "manifest.xml against its schema",
  install: "put the .xsd files into ../shared/platform/xsd, or name their folder in OFFICE_SCHEMAS",
};

const workbookSchemaFolder =
  process.env["WORKBOOK_SCHEMAS"] ??
  fileURLToPath(new URL("../../../shared/platform/ooxml-xsd", import.meta.url));

/** The schemas of ISO/IEC 29500, which are not ours to hand on. */
export const workbookSchemas: Tool = {
  name: "the schemas of workbooks",
  path: workbookSchemaFolder,
  present: existsSync(workbookSchemaFolder),
  checks: "parts of written workbooks against their schemas",
  install: "put the .xsd files into ../shared/platform/ooxml-xsd, or name their folder in WORKBOOK_SCHEMAS",
};

export const tools: readonly Tool[] = [libreOffice, xmllint, chromium, officeSchemas, workbookSchemas];
