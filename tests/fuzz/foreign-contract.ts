// What holds for a workbook of someone else that recalc is given with formulas of ours in it.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { extname, join } from "node:path";
import { unzipSync } from "fflate";
import type { FunctionsBundle } from "../support/functions-bundle.js";
import { recalculateFile, type FileOutcome } from "../../src/recalc/recalculate-file.js";
import { causeOf } from "../../src/recalc/refusal.js";
import { foldCase } from "../../src/formulas/sheet-name.js";
import { WorkbookError } from "../../src/workbook/error.js";
import type { CellChange } from "../../src/workbook/model.js";
import { openWorkbook, type Workbook } from "../../src/workbook/workbook.js";
import { same } from "./book-output.js";
import type { Dice } from "./dice.js";
import { aroundCells, cellElements, partText, storedValue, type CellElement } from "./foreign-cells.js";
import { formulasToPlant, type Planting } from "./foreign-plant.js";
import { isReached, reachedFrom, volatileIn } from "./foreign-reach.js";

/** What came of one workbook. */
export interface Tried {
  readonly kind: "calculated" | "nothing to plant" | "refused when read" | "refused when planted" | "refused";
  /** Why it was refused. */
  readonly why?: string;
  /** What is broken of what is promised. */
  readonly broken: readonly string[];
  /** Sentences of what was kept as it was. */
  readonly notes: readonly string[];
}

const MOST_TOLD = 5;

/** Plants formulas in a workbook, recalculates it in place and looks at every cell and part. @throws a mistake of ours */
export async function tried(
  path: string,
  planting: Planting,
  dice: Dice,
  bundle: FunctionsBundle,
): Promise<Tried> {
  const original = new Uint8Array(readFileSync(path));
  const refused = (kind: Tried["kind"], error: unknown): Tried => {
    const why = causeOf(error);
    if (why === undefined) throw error;
    return { kind, why, broken: [], notes: [] };
  };
  let workbook: Workbook;
  try {
    workbook = await openWorkbook(original);
  } catch (error) {
    return refused("refused when read", error);
  }
  const planted = formulasToPlant(workbook.model, planting, dice);
  if (planted.length === 0) return { kind: "nothing to plant", broken: [], notes: [] };
  let before: Uint8Array;
  try {
    before = await workbook.patch(planted);
  } catch (error) {
    if (!(error instanceof WorkbookError)) throw error;
    return refused("refused when planted", error);
  }
  const broken = [...wrongParts(original, before, ofPlanting).map((what) => `planting ${what}`)];
  const folder = mkdtempSync(join(tmpdir(), "foreign-"));
  const input = join(folder, `in${extname(path)}`);
  try {
    writeFileSync(input, before);
    const outcome = await recalculated(input, bundle);
    const after = new Uint8Array(readFileSync(input));
    broken.push(...wrongParts(before, after, /sheet[^/]*\.xml$/i));
    broken.push(...(await wrongCells(before, after, planted, planting)));
    broken.push(...unsaid(outcome, planted));
    return { kind: "calculated", broken, notes: outcome.notes.map(({ message }) => message) };
  } catch (error) {
    return refused("refused", error);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function recalculated(input: string, bundle: FunctionsBundle): Promise<FileOutcome> {
  const settings = { handOver: undefined, check: false, repair: false, changes: undefined };
  const onProgress = (): void => undefined;
  return recalculateFile(
    { input, output: input },
    { ...bundle, settings, instruments: undefined, date: "2026-03-01", onProgress },
  );
}

/** Formulas come with an end to the calculation chain. */
const ofPlanting = /sheet[^/]*\.xml$|calcChain\.xml$|^\[Content_Types\]\.xml$|workbook[^/]*\.xml\.rels$/i;

function wrongParts(before: Uint8Array, after: Uint8Array, mayChange: RegExp): string[] {
  const [old, now] = [unzipSync(before), unzipSync(after)];
  const lost = Object.keys(old).filter((name) => !(name in now) && !/calcChain/i.test(name));
  const changed = Object.keys(old).filter(
    (name) =>
      now[name] && !mayChange.test(name.replaceAll("\\", "/")) && !same(old[name] ?? now[name], now[name]),
  );
  const added = Object.keys(now).filter((name) => !(name in old));
  return [
    ...lost.map((name) => `loses ${name}`),
    ...changed.map((name) => `changes ${name}`),
    ...added.map((name) => `adds ${name}`),
  ];
}

/** Cells that are not reached from ours and yet are others than before. */
async function wrongCells(
  before: Uint8Array,
  after: Uint8Array,
  planted: readonly CellChange[],
  planting: Planting,
): Promise<string[]> {
  const { model } = await openWorkbook(before);
  const [old, now] = [unzipSync(before), unzipSync(after)];
  const sheetNamed = new Map(model.sheets.map(({ name }, i) => [foldCase(name), i]));
  const reached = reachedFrom(model, [
    ...planted.map(({ sheet, row, column }) => ({
      sheet: sheetNamed.get(foldCase(sheet)) ?? -1,
      row,
      column,
    })),
    ...volatileIn(model),
  ]);
  const unsteady = reachedFrom(model, volatileIn(model));
  const wrong: string[] = [];
  for (const [part, sheet] of partsOf(old, sheetNamed)) {
    const name = model.sheets[sheet]?.name ?? "";
    const [oldXml, newXml] = [old[part], now[part]].map((bytes) => partText(bytes ?? new Uint8Array()));
    if (oldXml === undefined || newXml === undefined || oldXml === newXml) continue;
    if (aroundCells(oldXml) !== aroundCells(newXml)) wrong.push(`changes ${part} around its cells`);
    const [had, has] = [cellElements(oldXml), cellElements(newXml)];
    if (had.length !== has.length) wrong.push(`has ${has.length} cells in ${name}, of ${had.length}`);
    for (const [i, cell] of had.entries()) {
      const fresh = has[i];
      if (!fresh || fresh.xml === cell.xml) continue;
      const place = { sheet, row: cell.row, column: cell.column };
      const isOurs = planted.some(
        (each) =>
          foldCase(each.sheet) === foldCase(name) && each.row === cell.row && each.column === cell.column,
      );
      const what = `${name}!${toAddress(cell)} from ${shown(cell)} to ${shown(fresh)}`;
      if (!isReached(reached, place)) wrong.push(`changes ${what}, which is not reached`);
      // Within, every number of ours is what stood there, so nothing that hangs on it changes.
      else if (
        planting === "within" &&
        !isReached(unsteady, place) &&
        hadValue(cell) &&
        !isAlike(cell, fresh)
      )
        wrong.push(`changes ${isOurs ? "our " : ""}${what}`);
    }
  }
  return wrong.length <= MOST_TOLD
    ? wrong
    : [...wrong.slice(0, MOST_TOLD), `and ${wrong.length - MOST_TOLD} cells more`];
}

/** Every formula that was planted is calculated, or it is told why not. */
function unsaid({ changes, notes }: FileOutcome, planted: readonly CellChange[]): string[] {
  const told = new Set([...changes, ...notes].map(({ sheet, row, column }) => `${sheet}!${row},${column}`));
  return planted
    .filter(({ value, sheet, row, column }) => value === null && !told.has(`${sheet}!${row},${column}`))
    .map(({ sheet, row, column }) => `says nothing of ${sheet}!${toAddress({ row, column })}`);
}

/** The part that holds each sheet, by the number of the sheet among all of the workbook. */
function partsOf(files: Readonly<Record<string, Uint8Array>>, sheetNamed: ReadonlyMap<string, number>) {
  const parts = new Map<string, number>();
  const textOf = (name: string): string => partText(files[name] ?? new Uint8Array());
  const rels = Object.keys(files).find(
    (name) => name.endsWith(".rels") && /\/worksheet["']/.test(textOf(name)),
  );
  if (rels === undefined) return parts;
  const [, folder = "", file = ""] = /^(.*)_rels[\\/](.*)\.rels$/.exec(rels) ?? [];
  const targets = new Map(
    elements(textOf(rels), "Relationship").map((each) => [each.get("Id"), each.get("Target") ?? ""]),
  );
  for (const sheet of elements(textOf(folder + file), "sheet")) {
    const id = [...sheet].find(([name]) => name.endsWith(":id"))?.[1];
    const target = targets.get(id)?.replace(/^\.\//, "") ?? "";
    const name = target.startsWith("/") ? target.slice(1) : folder + target;
    const part = Object.keys(files).find(
      (each) => each.toLowerCase().replaceAll("\\", "/") === name.toLowerCase().replaceAll("\\", "/"),
    );
    const number = sheetNamed.get(foldCase(sheet.get("name") ?? ""));
    if (part !== undefined && number !== undefined) parts.set(part, number);
  }
  return parts;
}

const characters: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

/** Attributes of all elements of a name. */
const elements = (xml: string, name: string): Map<string, string>[] =>
  [...xml.matchAll(new RegExp(`<(?:\\w+:)?${name}\\s([^<>]*)>`, "g"))].map(
    ([, attributes = ""]) =>
      new Map(
        [...attributes.matchAll(/([\w:]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)].map(
          ([, key = "", one, other]) => [
            key,
            (one ?? other ?? "").replace(/&(\w+);/g, (whole, entity: string) => characters[entity] ?? whole),
          ],
        ),
      ),
  );

const toAddress = ({ row, column }: Pick<CellElement, "row" | "column">): string =>
  `R${row + 1}C${column + 1}`;

const shown = ({ xml }: CellElement): string => {
  const { type, text } = storedValue(xml);
  return text === undefined ? "nothing" : `${text.slice(0, 40)} (${type})`;
};

/** A workbook may be saved before it was ever calculated. */
const hadValue = ({ xml }: CellElement): boolean => storedValue(xml).text !== undefined;

/** Equal but for the last digits of a number. */
function isAlike(a: CellElement, b: CellElement): boolean {
  const [x, y] = [storedValue(a.xml), storedValue(b.xml)];
  if (x.type !== y.type) return false;
  const [p, q] = [Number(x.text), Number(y.text)];
  return (
    x.text === y.text || (x.type === "n" && Math.abs(p - q) <= 1e-9 * Math.max(Math.abs(p), Math.abs(q)))
  );
}
