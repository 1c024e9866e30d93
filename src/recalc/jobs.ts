import { readdir, realpath, stat } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import { copyName } from "../handover/way.js";
import { UsageError, type Settings } from "./arguments.js";

/** One workbook to recalculate. */
export interface Job {
  readonly input: string;
  readonly output: string;
}

const isFolder = async (path: string): Promise<boolean> =>
  (await stat(path).catch(() => undefined))?.isDirectory() ?? false;

/** Excel's own lock files begin with "~$", ours and other hidden ones with ".". */
const isWorkbook = (name: string): boolean => /\.xls[xm]$/i.test(name) && !/^(~\$|\.)/.test(name);

async function workbooksOf(input: string): Promise<string[]> {
  if (!(await isFolder(input))) return [input];
  const names = (await readdir(input)).filter(isWorkbook).sort();
  if (names.length === 0) throw new UsageError(`There is no .xlsx workbook in the folder ${input}.`);
  return names.map((name) => join(input, name));
}

/** What is one file under two names is the same file. */
const sameFile = async (path: string): Promise<string> => realpath(path).catch(() => resolve(path));

/**
 * The workbooks that a command line means, and where each result goes.
 *
 * @throws UsageError where that is unclear, or where one result would overwrite another or a copy its original
 */
export async function jobsOf({ inputs, output, handOver, changes }: Settings): Promise<Job[]> {
  const workbooks = (await Promise.all(inputs.map(workbooksOf))).flat();
  const intoFolder = output !== undefined && (/[\\/]$/.test(output) || (await isFolder(output)));
  if (output !== undefined && workbooks.length > 1 && !intoFolder)
    throw new UsageError(
      `--output ${output} must be a folder (or end with a slash): there are ${workbooks.length} workbooks.`,
    );
  const place = (input: string): string => {
    if (output === undefined) return handOver ? copyName(input, handOver) : input;
    return intoFolder ? join(output, basename(input)) : output;
  };
  const jobs = workbooks.map((input) => ({ input, output: place(input) }));
  const table = changes === undefined ? undefined : await sameFile(changes);
  const taken = new Map<string, string>();
  for (const job of jobs) {
    const [source, target] = [await sameFile(job.input), await sameFile(job.output)];
    if (table === source || table === target)
      throw new UsageError(
        `The table of --changes would overwrite ${table === source ? job.input : job.output}; give it another name.`,
      );
    const other = taken.get(target);
    if (other !== undefined)
      throw new UsageError(`${other} and ${job.input} would both be written to ${job.output}.`);
    taken.set(target, job.input);
    if (handOver && target === source)
      throw new UsageError(`--${handOver} makes a copy; it may not overwrite ${job.input} itself.`);
  }
  return jobs;
}
