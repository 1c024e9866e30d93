import { parseArgs } from "node:util";
import { ways, type Way } from "../handover/way.js";

export const USAGE = `Usage: gylesheet-recalc [options] <workbook.xlsx or folder> …

Calculates every Gylesheet formula of a workbook anew, and whatever depends on it. Everything else stays as it is.
A workbook is replaced only when the new one is complete; nothing is written if nothing changes. A link stays a link, and a
file that is read-only, or that someone has saved meanwhile, is left alone. Folders are taken with the folders inside them,
but without copies to hand over (<name>-values.xlsx and the like) and hidden files.

Options
  -o, --output <path>       write here instead: a file for one workbook, a folder for several
      --instruments <file>  instruments from a JSON file; they go before those in the workbook of the same name
      --share               write a copy for a partner who is to get the add-in: as it is, with a sheet on how to get it
                            (into <name>-shared.xlsx if there is no --output)
      --values              write a copy for a partner without the add-in: our formulas replaced by their values, with a
                            note of the formula and its instruments, and a sheet about it (into <name>-values.xlsx if there is no --output)
      --live                write such a copy whose formulas go on calculating in any spreadsheet program, where that can be
                            done: polynomials fitted to ours (into <name>-live.xlsx if there is no --output)
      --changes <file.csv>  write a table of the cells of ours that changed: before, after, by how much, and whether that is
                            more than the result is sure to; its folder has to be there
      --check               look for faults and write nothing: formulas of ours that show #NAME?, instruments that are missing or
                            not used, readings off the scale, temperatures that look like the other unit, text in place of numbers
      --json                print what --check found, or what became of the formulas in a copy, as one JSON document, see below
      --repair              also write formulas of ours anew that the spreadsheet program shows as #NAME?
      --table               print the results as a table
      --force               also write to a signed workbook, although its signature is void then
      --uncalculated        for workbooks saved by a program that does not calculate, whose stored values prove nothing: write what
                            depends on Gylesheet formulas without first reproducing its stored values
      --strict              exit with status 3 if any Gylesheet cell shows an error, or any formula that had to be written was
                            left as it was; with --check, count doubts as faults
      --help, --version

Exit status: 0 done, 1 some workbook could not be recalculated (nothing was written for it), 2 wrong usage,
3 Gylesheet formulas are part of a circular reference and were left as they were (all else was done), or see --strict,
4 --check found a fault, or under --strict something doubtful, 5 results were kept as they were because their instrument is not
in the workbook: add it in the pane, or give it with --instruments.

JSON of --check: { format: 1, gylesheet: version, workbooks: [ … ] }, a workbook being { workbook, refused: why } or
{ workbook, sheets: [{ sheet, isProtected, formulas, errors, functions: [{ name, cells, count }] }],
findings: [{ kind, severity: "fault" | "doubt" | "note", sheet, cells, count, says }] }. Cells are such as "E4:E9"; "sheet" is
missing for what concerns the whole workbook. Of a copy a workbook is { workbook, copy: its file, formulas, live, values, errors, kept },
how many formulas there are, went on live, became values, show an error, and were kept for want of an instrument. Fields are added and never renamed; "format" goes up if one means something else.

Help for every function, and on taking good readings: help/index.html, in the folder of this command.
`;

export interface Settings {
  readonly inputs: readonly string[];
  readonly output: string | undefined;
  readonly instruments: string | undefined;
  /** How the workbook is handed over, if at all. */
  readonly handOver: Way | undefined;
  /** Only looks for faults, without writing. */
  readonly check: boolean;
  readonly json: boolean;
  /** Path of the table of changes. */
  readonly changes: string | undefined;
  readonly repair: boolean;
  readonly table: boolean;
  /** Also writes to signed workbooks. */
  readonly force: boolean;
  readonly strict: boolean;
  /** Stored values prove nothing. */
  readonly uncalculated: boolean;
}

/** Parses the command line. @throws UsageError with a sentence for invalid arguments */
export function readArguments(args: readonly string[]): Settings | "help" | "version" {
  const { values, positionals } = parsed(args);
  if (values.help) return "help";
  if (values.version) return "version";
  if (positionals.length === 0) throw new UsageError("No workbook is named.");
  const { output, instruments, changes, check = false, json = false, repair = false } = values;
  const { table = false, force = false, strict = false, uncalculated = false } = values;
  const [handOver, another] = ways.filter((way) => values[way]);
  if (another) throw new UsageError(`--${handOver} and --${another} make two copies: ask for one at a time.`);
  if (check && (handOver || repair || output !== undefined || changes !== undefined))
    throw new UsageError(
      "--check writes nothing, so it goes without --output, --changes, --repair and copies.",
    );
  if (changes !== undefined && !/\.csv$/i.test(changes))
    throw new UsageError(`--changes ${changes} is no table: it has to end with .csv. Was its name left out?`);
  if (json && !check && !handOver) throw new UsageError("--json is for what --check finds, and for copies.");
  if (repair && handOver) throw new UsageError(`--repair and --${handOver} are done one after the other.`);
  const switches = { check, json, repair, table, force, strict, uncalculated };
  return { inputs: positionals, output, instruments, handOver, changes, ...switches };
}

export class UsageError extends Error {
  override readonly name = "UsageError";
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        output: { type: "string", short: "o" },
        instruments: { type: "string" },
        share: { type: "boolean" },
        values: { type: "boolean" },
        live: { type: "boolean" },
        changes: { type: "string" },
        check: { type: "boolean" },
        json: { type: "boolean" },
        repair: { type: "boolean" },
        table: { type: "boolean" },
        force: { type: "boolean" },
        strict: { type: "boolean" },
        uncalculated: { type: "boolean" },
        help: { type: "boolean", short: "h" },
        version: { type: "boolean" },
      },
    });
  } catch (error) {
    throw new UsageError((error as Error).message);
  }
}
