import { SingleBar } from "cli-progress";
import { changesOfWorkbooks } from "../changes/changes-table.js";
import release from "../../package.json";
import { catalogueFunctions } from "../engine/ours/catalogue-functions.js";
import type { CellFunctions } from "../engine/ours/cell-functions.js";
import { today } from "../handover/today.js";
import { readArguments, USAGE, UsageError, type Settings } from "./arguments.js";
import { proveTable, writeTable } from "./changes-file.js";
import { checkText } from "./check-report.js";
import { instrumentsFromFile } from "./instruments.js";
import { jobsOf, type Job } from "./jobs.js";
import { recalculateFile, type FileOutcome } from "./recalculate-file.js";
import { causeOf } from "./refusal.js";
import { resultsTable } from "./results-table.js";
import { keptForInstruments, printable, summary } from "./summary.js";
import { isGrave, toldJson, type Told } from "./told.js";

const DONE = 0;
const REFUSED = 1;
const USAGE_WRONG = 2;
const CELLS_NOT_RIGHT = 3;
const CHECK_FOUND = 4;
const INSTRUMENT_MISSING = 5;

const say = (what: string): void => {
  process.stderr.write(`gylesheet-recalc: ${printable(what)}\n`);
};

/** Prints one line on a file that failed. @returns the reason: "<file> …" */
function complain(file: string, error: unknown): string {
  const cause = causeOf(error);
  if (cause === undefined) throw error;
  const why = printable(cause).replace(/\.$/, "");
  say(`${file} ${why}.`);
  return why;
}

/** A progress bar on a terminal, nothing elsewhere. */
function progressBar(file: string) {
  const bar = new SingleBar({
    format: `${printable(file)} [{bar}] {percentage}%`,
    stream: process.stderr,
    noTTYOutput: false,
    clearOnComplete: true,
    hideCursor: true,
  });
  let begun = false;
  return {
    onProgress: (done: number, total: number): void => {
      if (!process.stderr.isTTY) return;
      if (begun) bar.update(done);
      else bar.start(total, done);
      begun = true;
    },
    end: (): void => {
      if (begun) bar.stop();
    },
  };
}

async function attempt(
  job: Job,
  functions: CellFunctions,
  settings: Settings,
  instruments: Instruments,
): Promise<FileOutcome | { readonly refused: string }> {
  const bar = progressBar(job.input);
  try {
    const { onProgress } = bar;
    return await recalculateFile(job, {
      functions,
      settings,
      instruments,
      date: today(new Date()),
      onProgress,
    });
  } catch (error) {
    bar.end();
    return { refused: complain(job.input, error) };
  } finally {
    bar.end();
  }
}

type Instruments = Awaited<ReturnType<typeof instrumentsFromFile>> | undefined;

function isNotRight({ cycles: loops, errors, notes }: FileOutcome, strict: boolean): boolean {
  const isLeft = notes.some(({ kind }) => kind === "left-as-it-was");
  return loops.length > 0 || (strict && (errors.length > 0 || isLeft));
}

async function run(settings: Settings): Promise<number> {
  const { jobs, remarks } = await jobsOf(settings);
  remarks.forEach(say);
  const functions = catalogueFunctions();
  let instruments: Instruments;
  if (settings.instruments !== undefined)
    try {
      instruments = await instrumentsFromFile(settings.instruments);
    } catch (error) {
      complain(settings.instruments, error);
      return REFUSED;
    }
  if (settings.changes !== undefined)
    try {
      await proveTable(settings.changes);
    } catch (error) {
      complain(settings.changes, error);
      return REFUSED;
    }
  const outcomes: { readonly job: Job; readonly outcome: FileOutcome }[] = [];
  const told: Told[] = [];
  for (const job of jobs) {
    const outcome = await attempt(job, functions, settings, instruments);
    if ("refused" in outcome) {
      told.push({ job, ...outcome });
      continue;
    }
    outcomes.push({ job, outcome });
    const { check, report, warnings } = outcome;
    for (const warning of warnings) say(`${job.output} ${warning}.`);
    if (settings.check && check) {
      told.push({ job, check });
      if (!settings.json) process.stdout.write(`${checkText(job, check)}\n`);
      continue;
    }
    if (report) told.push({ job, copy: report, kept: keptForInstruments(outcome) });
    if (settings.json) continue;
    if (settings.table) process.stdout.write(`${resultsTable(outcome, functions)}\n\n`);
    process.stdout.write(`${summary(job, outcome, functions, settings.uncalculated)}\n`);
  }
  if (settings.changes !== undefined) {
    const tables = jobs.map((job) => ({
      workbook: job.input,
      changed: outcomes.find((each) => each.job === job)?.outcome.changed ?? [],
    }));
    try {
      await writeTable(settings.changes, new TextEncoder().encode(changesOfWorkbooks(tables)));
    } catch (error) {
      complain(settings.changes, error);
      return REFUSED;
    }
  }
  if (settings.json) process.stdout.write(`${toldJson(told)}\n`);
  if (outcomes.length < jobs.length) return REFUSED;
  if (settings.check) return told.some((each) => isGrave(each, settings.strict)) ? CHECK_FOUND : DONE;
  if (outcomes.some(({ outcome }) => keptForInstruments(outcome) > 0)) return INSTRUMENT_MISSING;
  return outcomes.some(({ outcome }) => isNotRight(outcome, settings.strict)) ? CELLS_NOT_RIGHT : DONE;
}

/**
 * The whole command within the calling process: reads and writes files below its folder, and prints to its standard
 * output and standard error.
 * @returns the exit status
 */
export async function main(args: readonly string[]): Promise<number> {
  try {
    const settings = readArguments(args);
    if (settings === "help") process.stdout.write(USAGE);
    else if (settings === "version") process.stdout.write(`${release.version}\n`);
    else return await run(settings);
    return DONE;
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    process.stderr.write(`gylesheet-recalc: ${printable(error.message)} Try --help.\n`);
    return USAGE_WRONG;
  }
}
