// A workbook in memory for the pane: a few cells with formulas of ours, and the instruments' XML parts.
import { readPart } from "../../src/instruments/part.js";
import type {
  Call,
  CellFunctions,
  Finding,
  Host,
  OurFormula,
  Report,
  Rows,
  SelectedFormula,
  Work,
} from "../../src/pane/ports.js";
import { nameKey } from "../../src/instruments/name.js";

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
}

const columnOf = (letters: string): number =>
  Array.from(letters).reduce((n, letter) => n * 26 + letter.charCodeAt(0) - 64, 0);

const lettersOf = (n: number): string =>
  (n > 26 ? lettersOf(Math.floor((n - 1) / 26)) : "") + String.fromCharCode(65 + ((n - 1) % 26));

function rowsAt(book: Book, reference: string): Rows {
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
  act: (formula: OurFormula) => void,
): Promise<Report> {
  const failed = [];
  let done = 0;
  for (const formula of formulas) {
    signal.throwIfAborted();
    if (book.locked.includes(formula.address))
      failed.push({ sheet: formula.sheet, address: formula.address, why: "The sheet is protected." });
    else {
      act(formula);
      done += 1;
    }
    onProgress(done, formulas.length);
  }
  await Promise.resolve();
  return { done, failed };
}

/** The call that a formula of this workbook is. */
function callOf(book: Book, { formula, instruments: [name] }: OurFormula): Call | undefined {
  const call = /^=GYLE\.([A-Z.]+)\(([A-Z]+\d+),([A-Z]+\d+),"[^"]*"\)$/.exec(formula);
  const [, called = "", reading = "", temperature = ""] = call ?? [];
  if (!call) return undefined;
  return { name: called, isWhole: true, args: [rowsAt(book, reading), rowsAt(book, temperature), [[name]]] };
}

/** The formula with what it gives now, by the instruments of the workbook. */
function calculated(book: Book, functions: CellFunctions, formula: OurFormula): OurFormula {
  const call = callOf(book, formula);
  const part = book.parts.at(-1);
  if (!call || part === undefined) return formula;
  const [[result = ""] = []] = functions.evaluate(call.name, call.args, readPart(part));
  return { ...formula, value: typeof result === "object" ? result.code : result };
}

export function memoryHost(book: Book, functions: CellFunctions): Host {
  return {
    version: "Gylesheet in a test.",
    help: "help/",
    functions,
    files: {
      save: (name, text) => {
        if (book.savesNothing) return "shown";
        book.saved.push({ name, text });
        return "saved";
      },
    },
    check: () =>
      Promise.resolve({
        sheets: [
          {
            sheet: "Season",
            isProtected: false,
            formulas: 4,
            errors: 1,
            functions: [{ name: "HYDROMETER", cells: ["C2:C3"] }],
          },
        ],
        findings: book.findings,
        unbound: book.findings.flatMap(({ kind, cells }) =>
          kind === "unbound" ? cells.map((address) => ({ sheet: "Season", address })) : [],
        ),
      }),
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
        book.failing === undefined
          ? Promise.resolve([...book.parts])
          : Promise.reject(new Error(book.failing)),
      write: (xml, insteadOf) => {
        book.parts = [...book.parts.filter((part) => !insteadOf.includes(part)), xml];
        return Promise.resolve();
      },
    },
    formulas: {
      find: async (work) => {
        for (let i = 0; i < 10; i++) {
          work.signal.throwIfAborted();
          work.onProgress(i, 10);
          if (book.findTakes > 0) await new Promise((resolve) => setTimeout(resolve, book.findTakes / 10));
        }
        return book.formulas;
      },
      calls: (formulas) => Promise.resolve(formulas.map((formula) => callOf(book, formula))),
      rerun: (formulas, work) =>
        each(book, formulas, work, ({ address }) => {
          book.log.push(`rerun ${address}`);
          book.formulas = book.formulas.map((old) =>
            old.address === address ? calculated(book, functions, old) : old,
          );
        }),
      rename: (formulas, from, to, work) =>
        each(book, formulas, work, (formula) => {
          book.log.push(`rename ${formula.address}`);
          book.formulas = book.formulas.map((old) =>
            old.address === formula.address
              ? {
                  ...old,
                  formula: old.formula.replace(`"${from}"`, `"${to}"`),
                  instruments: old.instruments.map((name) => (nameKey(name) === nameKey(from) ? to : name)),
                }
              : old,
          );
        }),
      repair: (cells) => {
        book.log.push(`repair ${cells.map(({ address }) => address).join()}`);
        book.findings = book.findings.filter(({ kind }) => kind !== "unbound");
        const [, ...failed] = cells;
        return Promise.resolve({
          done: 1,
          failed: failed.map((cell) => ({ ...cell, why: "The sheet is protected." })),
        });
      },
      show: ({ address }) => {
        book.log.push(`show ${address}`);
        return Promise.resolve();
      },
    },
    selection: {
      read: () => Promise.resolve({ reference: book.selected, rows: rowsAt(book, book.selected) }),
      at: (reference) => Promise.resolve().then(() => ({ reference, rows: rowsAt(book, reference) })),
      formula: () => Promise.resolve(book.selectedFormula),
      watch: (look) => {
        book.lookAtCell = look;
      },
      insert: (formula, over) => {
        const there = book.cells[book.selected];
        if (there !== undefined && !over) return Promise.resolve({ occupied: JSON.stringify(there) });
        book.cells[book.selected] = formula;
        book.log.push(`insert ${book.selected} ${formula}`);
        return Promise.resolve({ inserted: book.selected });
      },
    },
    onOthersEdit: (look) => {
      book.lookAgain = look;
    },
  };
}
