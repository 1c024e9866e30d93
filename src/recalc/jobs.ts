import { stat } from "node:fs/promises";
import { basename, join } from "node:path";
import { copyName } from "../handover/way.js";
import { workbookKinds } from "../workbook/package/workbook-kind.js";
import { UsageError, type Settings } from "./arguments.js";
import { contentOf, sameFile, type FolderContent } from "./folder.js";

/** One workbook to recalculate. */
export interface Job {
  readonly input: string;
  readonly output: string;
}

const isFolder = async (path: string): Promise<boolean> =>
  (await stat(path).catch(() => undefined))?.isDirectory() ?? false;

/** Jobs of a command line. */
export interface Jobs {
  readonly jobs: readonly Job[];
  /** What was not taken from folders, in complete sentences. */
  readonly remarks: readonly string[];
}

interface Taken {
  readonly input: string;
  /** Relative path in a folder for results. */
  readonly inside: string;
}

const listed = ({ passedOver }: FolderContent): string => passedOver.join(", ");

async function workbooksOf(input: string, results: string | undefined, remarks: string[]): Promise<Taken[]> {
  if (!(await isFolder(input))) return [{ input, inside: basename(input) }];
  const content = await contentOf(input, results);
  const others =
    content.passedOver.length === 0 ? "" : ` There is ${listed(content)}: name a file to have it taken.`;
  if (content.workbooks.length === 0)
    throw new UsageError(`There is no .xlsx workbook in the folder ${input}.${others}`);
  if (others !== "")
    remarks.push(`Not taken from ${input}: ${listed(content)}. Name a file to have it taken.`);
  return content.workbooks.map((inside) => ({ input: join(input, inside), inside }));
}

const workbookName = new RegExp(`\\.(?:${workbookKinds.join("|")})$`, "i");

/**
 * The workbooks of a command line, and where each result goes.
 *
 * @throws UsageError if that is unclear, or if a result would overwrite another one or a copy its original
 */
export async function jobsOf({ inputs, output, handOver, changes }: Settings): Promise<Jobs> {
  const intoFolder = output !== undefined && (/[\\/]$/.test(output) || (await isFolder(output)));
  const remarks: string[] = [];
  const workbooks: Taken[] = [];
  for (const input of inputs)
    workbooks.push(...(await workbooksOf(input, intoFolder ? output : undefined, remarks)));
  if (output !== undefined && workbooks.length > 1 && !intoFolder)
    throw new UsageError(
      `--output ${output} must be a folder (or end with a slash): there are ${workbooks.length} workbooks.`,
    );
  const place = ({ input, inside }: Taken): string => {
    if (output === undefined) return handOver ? copyName(input, handOver) : input;
    return intoFolder ? join(output, inside) : output;
  };
  const jobs = workbooks.map((workbook) => ({ input: workbook.input, output: place(workbook) }));
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
  if (output !== undefined && !intoFolder && !workbookName.test(output))
    throw new UsageError(
      `--output ${output} cannot be a workbook: end it with .xlsx, or .xlsm if there are macros, or with a slash for a folder.`,
    );
  return { jobs, remarks };
}
