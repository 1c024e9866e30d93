import { fileLimit } from "../workbook/limits.js";
import { positionKey } from "../cells/place.js";
import { mkdir, readFile, stat } from "node:fs/promises";
import { basename, dirname, extname } from "node:path";
import type { ChangedCell } from "../changes/changed-cell.js";
import { checkWorkbook, type Check } from "../check/check.js";
import type { CellFunctions } from "../engine/ours/cell-functions.js";
import { recalculatePromptly } from "../engine/recalculate-promptly.js";
import type { Recalculation } from "../engine/recalculation.js";
import { refuseCircularReferences, refuseOnlyCircularReferences } from "../engine/circular-references.js";
import { useInstruments } from "../functions/contract/instruments-port.js";
import { handedOver } from "../handover/hand-over.js";
import type { HandOverReport } from "../handover/values.js";
import type { InstrumentSet } from "../instruments/set.js";
import type { CellChange, WorkbookModel } from "../workbook/model.js";
import { openWorkbook, type Workbook } from "../workbook/workbook.js";
import type { Settings } from "./arguments.js";
import { instrumentsFor } from "./instruments.js";
import type { Job } from "./jobs.js";
import { openElsewhere } from "./open-elsewhere.js";
import { causeOf, FileRefused } from "./refusal.js";
import { whatChanged } from "./what-changed.js";
import { writeFileWhole } from "./write-file.js";

/** Result for one workbook. */
export interface FileOutcome extends Recalculation {
  readonly model: WorkbookModel;
  /** Whether there was anything new to write. */
  readonly written: boolean;
  /** For a copy that was handed over. */
  readonly report: HandOverReport | undefined;
  /** Findings, if requested. */
  readonly check: Check | undefined;
  /** Cells of ours with new values, if requested. */
  readonly changed: readonly ChangedCell[];
  /** Number of formulas that were rewritten. */
  readonly repaired: number;
  /** Warnings about the file itself, each completing "<file> …". */
  readonly warnings: readonly string[];
}

export interface Tools {
  readonly functions: CellFunctions;
  readonly settings: Pick<Settings, "handOver" | "check" | "repair" | "changes"> &
    Partial<Pick<Settings, "force" | "uncalculated">>;
  readonly instruments: InstrumentSet | undefined;
  /** Today's date, for copies. */
  readonly date: string;
  readonly onProgress: (done: number, total: number) => void;
}

/**
 * Recalculates one workbook.
 *
 * @throws FileRefused, WorkbookError or the file system's error; nothing was written then
 */
export async function recalculateFile(job: Job, tools: Tools): Promise<FileOutcome> {
  const { input, output } = job;
  const { functions, settings, onProgress } = tools;
  const bytes = await readBytes(input);
  const workbook = await openWorkbook(bytes);
  const { model } = workbook;
  if (!settings.check) expectExtension(job, workbook);
  const instruments = instrumentsFor(workbook, tools.instruments);
  useInstruments(instruments);
  const uncalculated = settings.uncalculated ?? false;
  const result = await recalculatePromptly(model, functions, { onProgress, uncalculated });
  (settings.handOver ? refuseCircularReferences : refuseOnlyCircularReferences)(result);
  const check = settings.check || settings.repair ? checkWorkbook({ model, result, instruments }) : undefined;
  const nothing = { written: false, report: undefined, repaired: 0, changed: [], warnings: [] };
  if (settings.check) return { ...result, model, check, ...nothing };
  const given = { model, result, functions, instruments, date: tools.date };
  const copy = settings.handOver && handedOver(settings.handOver, given);
  const repairs = check?.repairs ?? [];
  const { changes, notes, sheets } = copy ?? {
    changes: withRepairs(result.changes, repairs),
    notes: [],
    sheets: [],
  };
  const isChanged = changes.length > 0 || sheets.length > 0;
  const written = isChanged || output !== input;
  const breaksSignature = isChanged && workbook.isSigned;
  if (breaksSignature && !settings.force)
    throw new FileRefused(
      "is signed, and the signature would be void: give --force to have it written all the same",
    );
  const warnings = breaksSignature ? ["was signed: the signature is void now"] : [];
  if (written) {
    const result = isChanged ? await workbook.patch(changes, { notes, sheets }) : bytes;
    warnings.push(...(await write(job, result, bytes)));
  }
  const changed = settings.changes === undefined ? [] : whatChanged(model, result, instruments);
  return {
    ...result,
    model,
    written,
    report: copy?.report,
    check,
    changed,
    repaired: repairs.length,
    warnings,
  };
}

/** A cell whose formula is rewritten gets its new value along with it. */
function withRepairs(changes: readonly CellChange[], repairs: readonly CellChange[]): readonly CellChange[] {
  if (repairs.length === 0) return changes;
  const all = new Map(changes.map((change) => [positionKey(change), change]));
  for (const repair of repairs) {
    const area = all.get(positionKey(repair))?.formula?.area;
    const formula = repair.formula && { ...repair.formula, ...(area && { area }) };
    all.set(positionKey(repair), { ...repair, ...(formula && { formula }) });
  }
  return [...all.values()];
}

async function readBytes(path: string): Promise<Uint8Array> {
  const { size } = await stat(path);
  if (size > fileLimit) throw new FileRefused(`is larger than ${fileLimit / 1024 / 1024} MB`);
  return readFile(path);
}

/** Programs do not open a workbook under the extension of another kind. */
function expectExtension({ input, output }: Job, { kind }: Workbook): void {
  const extension = extname(output).slice(1).toLowerCase();
  if (output !== input && kind !== undefined && extension !== kind)
    throw new FileRefused(
      `is an .${kind} workbook, which programs would not open as ${basename(output)}: end the name of the result with .${kind}`,
    );
}

/** @returns warnings about the file */
async function write({ input, output }: Job, bytes: Uint8Array, asRead: Uint8Array): Promise<string[]> {
  try {
    await mkdir(dirname(output), { recursive: true });
    const elsewhere = await openElsewhere(output);
    return [...elsewhere, ...(await writeFileWhole(output, bytes, output === input ? asRead : undefined))];
  } catch (error) {
    const cause = causeOf(error);
    if (cause === undefined) throw error;
    throw new FileRefused(`was not written: ${output === input ? "it" : output} ${cause}`);
  }
}
