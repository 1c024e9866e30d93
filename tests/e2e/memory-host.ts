// A workbook in memory for the pane: a few cells with formulas of ours, and the instruments' XML parts.
import { readPart } from "../../src/instruments/part.js";
import type { Finding } from "../../src/check/finding.js";
import type { RawCells } from "../../src/functions/contract/cell-value.js";
import type { Host } from "../../src/pane/ports.js";
import type { Call, OurFormula, Report, Work } from "../../src/pane/ports/formulas-port.js";
import type { FunctionsPort } from "../../src/pane/ports/functions-port.js";
import { isAgreed, type SelectedFormula } from "../../src/pane/ports/selection-port.js";
import { Emitter } from "../../src/pane/source.js";
import { nameKey } from "../../src/instruments/name.js";
import type { InstrumentSet } from "../../src/instruments/set.js";
import { pauses, type Delays, type Operation } from "./delays.js";

/** What a test looks at and does from outside. */
export interface Book {
  parts: string[];
  formulas: OurFormula[];
  /** Cells by address, for the selection and for arguments. */
  cells: Record<string, unknown>;
  selected: string;
  /** What the pane had done: formulas run again, written, shown. */
  readonly log: string[];
  readonly saved: { name: string; text: string }[];
  /** Milliseconds that looking for formulas takes, so that progress can be seen. */
  findTakes: number;
  /** How slow everything is, so that one thing can meet another; missing for at once. */
  delays?: Delays | undefined;
  /** Cells that cannot be reached. */
  locked: string[];
  failing: string | undefined;
  /** The host lets no page save files. */
  savesNothing: boolean;
  lookAgain: () => void;
  /** What a check finds. */
  findings: Finding[];
  /** What is behind the selected cell. */
  selectedFormula: SelectedFormula | undefined;
  lookAtCell: () => void;
  /** Types a formula into a cell, which calculates it as cells do. */
  type: (address: string, formula: string) => void;
}

/** What cells get from the functions: the instruments, an error in their place, or nothing yet. */
interface InCells {
  instruments: InstrumentSet | "refused" | undefined;
}

const columnOf = (letters: string): number =>
  Array.from(letters).reduce((n, letter) => n * 26 + letter.charCodeAt(0) - 64, 0);

const lettersOf = (n: number): string =>
  (n > 26 ? lettersOf(Math.floor((n - 1) / 26)) : "") + String.fromCharCode(65 + ((n - 1) % 26));

function rowsAt(book: Book, reference: string): RawCells {
  const range = /^\$?([A-Z]+)\$?(\d+)(?::\$?([A-Z]+)\$?(\d+))?$/.exec(reference.toUpperCase());
  if (!range) throw new Error(`There are no cells ${reference} here.`);
  const [, left = "", top = "", right = left, bottom = top] = range;
  const rows = [];
  for (let r = Number(top); r <= Number(bottom); r++) {
    const row = [];
    for (let c = columnOf(left); c <= columnOf(right); c++) row.push(book.cells[`${lettersOf(c)}${r}`] ?? "");
    rows.push(row);
  }
  return rows;
}

/** Goes through formulas a few at a time, as a real host does. */
async function each(
  book: Book,
  formulas: readonly OurFormula[],
  { onProgress, signal }: Work,
  pause: () => Promise<void>,
  act: (formula: OurFormula) => void,
): Promise<Report> {
  const failed = [];
  let done = 0;
  for (const formula of formulas) {
    await pause();
    signal.throwIfAborted();
    if (book.locked.includes(formula.address))
      failed.push({ sheet: formula.sheet, address: formula.address, why: "The sheet is protected." });
    else {
      act(formula);
      done += 1;
    }
    onProgress(done, formulas.length);
  }
  await pause();
  return { done, failed };
}

/** The call that a formula of this workbook is. */
function callOf(book: Book, { formula, instruments: [name] }: OurFormula): Call | undefined {
  const call = /^=GYLE\.([A-Z.]+)\(([A-Z]+\d+),([A-Z]+\d+),"[^"]*"\)$/.exec(formula);
  const [, called = "", reading = "", temperature = ""] = call ?? [];
  if (!call) return undefined;
  return { name: called, isWhole: true, args: [rowsAt(book, reading), rowsAt(book, temperature), [[name]]] };
}

/** The formula with what it gives now, by the instruments that its cell gets. */
function calculated(
  book: Book,
  functions: FunctionsPort,
  { instruments }: InCells,
  formula: OurFormula,
): OurFormula {
  const call = callOf(book, formula);
  const part = book.parts.at(-1);
  if (instruments === "refused") return { ...formula, value: "#N/A" };
  const set = instruments ?? (part === undefined ? undefined : readPart(part));
  if (!call || !set) return formula;
  const [[result = ""] = []] = functions.evaluate(call.name, call.args, set);
  return { ...formula, value: typeof result === "object" ? result.code : result };
}

export function memoryHost(book: Book, functions: FunctionsPort): Host {
  const inCells: InCells = { instruments: undefined };
  const [selected, edited] = [new Emitter(), new Emitter()];
  book.lookAtCell = selected.emit;
  book.lookAgain = edited.emit;
  const pauseFor = pauses(book.delays);
  /** What is asked for comes late, and is as it was at some moment in between. */
  const slowly = async <T>(operation: Operation, act: () => T): Promise<T> => {
    await pauseFor(operation);
    const result = act();
    await pauseFor(operation);
    return result;
  };
  const change = (address: string, to: (old: OurFormula) => OurFormula): void => {
    book.formulas = book.formulas.map((old) => (old.address === address ? to(old) : old));
  };
  const calculate = (formula: OurFormula): OurFormula => calculated(book, functions, inCells, formula);
  book.type = (address, formula) => {
    const [, name] = /"([^"]*)"\)$/.exec(formula) ?? [];
    const typed = {
      sheet: "Season",
      address,
      formula,
      value: "",
      instruments: name === undefined ? [] : [name],
      anyInstrument: false,
    };
    book.formulas = [...book.formulas.filter((old) => old.address !== address), calculate(typed)];
  };
  return {
    version: "Gylesheet in a test.",
    help: "help/",
    functions: {
      ...functions,
      use: (set) => {
        inCells.instruments = set;
        return functions.use(set);
      },
      refuse: (why) => {
        inCells.instruments = "refused";
        functions.refuse(why);
      },
    },
    files: {
      save: (name, text) => {
        if (book.savesNothing) return "shown";
        book.saved.push({ name, text });
        return "saved";
      },
    },
    check: () =>
      slowly("check", () => ({
        sheets: [
          {
            sheet: "Season",
            isProtected: false,
            formulas: 4,
            errors: 1,
            functions: [{ name: "HYDROMETER", cells: ["C2:C3"], count: 2 }],
          },
        ],
        findings: book.findings,
        unbound: book.findings.flatMap(({ kind, cells }) =>
          kind === "unbound" ? cells.map((address) => ({ sheet: "Season", address })) : [],
        ),
      })),
    handOver: async (way, { signal, onProgress }) => {
      for (let i = 0; i < 10; i++) {
        signal.throwIfAborted();
        onProgress(i, 10);
        if (book.findTakes > 0) await new Promise((resolve) => setTimeout(resolve, book.findTakes / 10));
      }
      if (book.failing !== undefined) throw new Error(book.failing);
      book.log.push(`handed over ${way}`);
      const cell = { sheet: "Season", address: "E2" };
      return {
        where: "The copy is on the shelf.",
        formulas: 4,
        live: way === "live" ? 3 : 0,
        notLive: way === "live" ? [{ ...cell, why: "it takes a whole range at once" }] : [],
        errors: [{ sheet: "Season", address: "F2" }],
      };
    },
    parts: {
      read: () =>
        slowly("read", () => {
          if (book.failing !== undefined) throw new Error(book.failing);
          return [...book.parts];
        }),
      write: (xml, insteadOf) =>
        slowly("write", () => {
          book.parts = [...book.parts.filter((part) => !insteadOf.includes(part)), xml];
        }),
    },
    formulas: {
      find: async (work) => {
        for (let i = 0; i < 10; i++) {
          work.signal.throwIfAborted();
          work.onProgress(i, 10);
          if (book.findTakes > 0) await new Promise((resolve) => setTimeout(resolve, book.findTakes / 10));
        }
        return slowly("find", () => book.formulas);
      },
      calls: (formulas) => slowly("calls", () => formulas.map((formula) => callOf(book, formula))),
      recalculate: (formulas, work) =>
        each(
          book,
          formulas,
          work,
          () => pauseFor("recalculate"),
          ({ address }) => {
            book.log.push(`recalculate ${address}`);
            change(address, calculate);
          },
        ),
      rename: (formulas, from, to, work) =>
        each(
          book,
          formulas,
          work,
          () => pauseFor("rename"),
          ({ address }) => {
            book.log.push(`rename ${address}`);
            const isFrom = (name: string): boolean => nameKey(name) === nameKey(from);
            // What is written is calculated at once.
            change(address, (old) =>
              calculate({
                ...old,
                formula: old.formula.replaceAll(/"([^"]*)"/g, (text, name: string) =>
                  isFrom(name) ? `"${to}"` : text,
                ),
                instruments: old.instruments.map((name) => (isFrom(name) ? to : name)),
              }),
            );
          },
        ),
      repair: (cells) =>
        slowly("repair", () => {
          book.log.push(`repair ${cells.map(({ address }) => address).join()}`);
          book.findings = book.findings.filter(({ kind }) => kind !== "unbound");
          const [, ...failed] = cells;
          return {
            done: 1,
            failed: failed.map((cell) => ({ ...cell, why: "The sheet is protected." })),
          };
        }),
      show: ({ address }) =>
        slowly("show", () => {
          book.log.push(`show ${address}`);
        }),
    },
    selection: {
      read: () => slowly("select", () => ({ reference: book.selected, rows: rowsAt(book, book.selected) })),
      at: (reference) => slowly("select", () => ({ reference, rows: rowsAt(book, reference) })),
      formula: () => slowly("select", () => book.selectedFormula),
      insert: (formula, over) =>
        slowly("insert", () => {
          const there = book.cells[book.selected];
          const held = { occupied: JSON.stringify(there), at: book.selected };
          if (there !== undefined && !isAgreed(held, over)) return held;
          book.cells[book.selected] = formula;
          book.log.push(`insert ${book.selected} ${formula}`);
          return { inserted: book.selected };
        }),
    },
    selected,
    edited,
  };
}
