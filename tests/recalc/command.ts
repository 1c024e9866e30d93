import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { fromCol } from "@borgar/fx";
import { afterAll, vi } from "vitest";
import { partNamespace } from "../../src/instruments/part.js";
import { main } from "../../src/recalc/main.js";
import type { CellValue, WorkbookModel } from "../../src/workbook/model.js";
import { openWorkbook } from "../../src/workbook/workbook.js";

const path = (file: string): string => fileURLToPath(new URL(`../../${file}`, import.meta.url));

export const brewLog = (): Uint8Array =>
  new Uint8Array(readFileSync(path("tests/workbooks/brew-log-existing.xlsx")));
export const season = (): Uint8Array => new Uint8Array(readFileSync(path("examples/season.xlsx")));
/** The season as a program leaves it that does not keep what it does not know. */
export async function seasonWithoutInstruments(): Promise<Uint8Array> {
  const workbook = await openWorkbook(season());
  const [part] = workbook.customXml(partNamespace);
  return workbook.patch([], { droppedCustomXml: [part?.path ?? ""] });
}
export const fermentation = (): Uint8Array =>
  new Uint8Array(readFileSync(path("examples/fermentation.xlsx")));
export const starter = (): Uint8Array => new Uint8Array(readFileSync(path("examples/starter.xlsx")));
export const instrumentsJson = path("examples/instruments.json");

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** A folder that is gone after the tests, with files in it. */
export function folderWith(files: Readonly<Record<string, Uint8Array | string>>): string {
  const folder = mkdtempSync(join(tmpdir(), "recalc-"));
  folders.push(folder);
  for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
  return folder;
}

export interface Run {
  readonly status: number | null;
  readonly out: string;
  readonly errors: string;
}

/** Collects what is written to a stream of this process while something is done. */
async function written(stream: NodeJS.WriteStream, work: () => Promise<void>): Promise<string> {
  const chunks: string[] = [];
  const write = vi.spyOn(stream, "write").mockImplementation((chunk) => {
    chunks.push(typeof chunk === "string" ? chunk : new TextDecoder().decode(chunk));
    return true;
  });
  try {
    await work();
  } finally {
    write.mockRestore();
  }
  return chunks.join("");
}

/** Runs the command in a folder, within this process: what is tested is the source. */
export async function recalc(folder: string, ...args: readonly string[]): Promise<Run> {
  const before = process.cwd();
  let status: number | null = null;
  let errors = "";
  process.chdir(folder);
  try {
    const out = await written(process.stdout, async () => {
      errors = await written(process.stderr, async () => {
        status = await main(args);
      });
    });
    return { status, out, errors };
  } finally {
    process.chdir(before);
  }
}

/** Runs the program that was built in a folder, as a shell would. */
export function spawned(folder: string, ...args: readonly string[]): Run {
  const { status, stdout, stderr } = spawnSync(process.execPath, [path("dist/recalc.cjs"), ...args], {
    cwd: folder,
    encoding: "utf8",
  });
  return { status, out: stdout, errors: stderr };
}

/** The cells of a workbook, each by an address such as "Batches!M4". */
export async function valuesIn(bytes: Uint8Array): Promise<(address: string) => CellValue> {
  const { model } = await openWorkbook(bytes);
  return (address) => valueIn(model, address);
}

function valueIn(model: WorkbookModel, address: string): CellValue {
  const [, sheet = "", letters = "", digits = ""] = /^(.+)!([A-Z]+)(\d+)$/.exec(address) ?? [];
  const cells = model.sheets.find(({ name }) => name === sheet)?.cells ?? [];
  const found = cells.find(({ row, column }) => row === Number(digits) - 1 && column === fromCol(letters));
  return found?.value ?? null;
}

export const read = (folder: string, file: string): Uint8Array =>
  new Uint8Array(readFileSync(join(folder, file)));
