// A brewer, a co-author and the pane at work on one slow workbook, each at random moments.
import { vi } from "vitest";
import { catalogue } from "../../src/functions/catalogue.js";
import { evaluate } from "../../src/functions/evaluate.js";
import { explain } from "../../src/functions/explain.js";
import { course } from "../../src/functions/fermentation-course.js";
import { refuseInstruments, useInstruments } from "../../src/functions/contract/instruments-port.js";
import { sentence, textNotNumber } from "../../src/functions/contract/messages.js";
import { resultAt, resultShape } from "../../src/functions/one-cell.js";
import { plusMinus } from "../../src/functions/uncertainty.js";
import { add, freeName, put, takeOut } from "../../src/instruments/edits.js";
import { findInstrument } from "../../src/instruments/find.js";
import { sameSets } from "../../src/instruments/merge.js";
import { writePart } from "../../src/instruments/part.js";
import type { Profile } from "../../src/instruments/schema.js";
import type { InstrumentSet } from "../../src/instruments/set.js";
import { storedInstruments } from "../../src/instruments/stored.js";
import { Pane } from "../../src/pane/pane.js";
import { functionsPort } from "../../src/pane/ports/functions-port.js";
import type { Notice } from "../../src/pane/parts/notices.js";
import { seeded, type Delays } from "../e2e/delays.js";
import { memoryHost, type Book } from "../e2e/memory-host.js";

const functions = functionsPort({
  functions: catalogue,
  useInstruments,
  refuseInstruments,
  sentence,
  textNotNumber,
  evaluate,
  shape: resultShape,
  at: resultAt,
  explain,
  plusMinus,
  course,
});

/** A glass of an invented brewery. What it corrects depends on where it is true at. */
export const glass = (name: string, calibrationTemperature: number, edited?: string): Profile => ({
  name,
  kind: "hydrometer",
  scale: "SG",
  temperatureUnit: "C",
  calibrationTemperature,
  read: "level",
  ...(edited === undefined ? {} : { edited }),
});

const formulaOf = (row: number, name: string): string => `=GYLE.HYDROMETER(A${row},B${row},"${name}")`;

/** A workbook with three glasses, each in two formulas, and the pane beside it. */
export class SlowSeason {
  readonly book: Book;
  readonly pane: Pane;
  /** Everything that was told, in its order. */
  readonly told: { readonly about: string; readonly notice: Notice }[] = [];
  /** Cells whose formula may show an error: the user agreed, or typed it so. */
  readonly mayFail = new Set<string>();
  /** Edits that the brewer was told are done, in their order; undefined for one that may concern any instrument. */
  readonly made: ({ readonly name: string; readonly at: number } | undefined)[] = [];
  /** How questions are answered; undefined leaves them unanswered. */
  answer: (answers: readonly string[]) => string | undefined = () => undefined;
  /** While a question stands the user may go on typing in the sheet. */
  whileAsked: () => void = () => undefined;
  #typed = 7;

  constructor(delays: Delays) {
    const cells: Record<string, unknown> = {};
    for (let row = 2; row < 60; row++)
      Object.assign(cells, { [`A${row}`]: 1.04 + row / 2000, [`B${row}`]: 18 + (row % 9) });
    this.book = {
      parts: [
        writePart({
          version: 1,
          instruments: ["A", "B", "C"].map((name) => glass(`Glass ${name}`, 20, "2026-01-01T00:00:00.000Z")),
        }),
      ],
      formulas: [],
      cells,
      selected: "A2",
      log: [],
      saved: [],
      findTakes: 0,
      findings: [],
      locked: [],
      failing: undefined,
      savesNothing: false,
      selectedFormula: undefined,
      lookAgain: () => undefined,
      lookAtCell: () => undefined,
      type: () => undefined,
      delays,
    };
    this.pane = new Pane(memoryHost(this.book, functions));
    const say = this.pane.notices.say.bind(this.pane.notices);
    this.pane.notices.say = (about, notice) => {
      this.told.push({ about, notice });
      // Whatever an undo or another name concerns is made anew by it.
      if (/^Undone|^"[^"]*" is (?:now|deleted)/.test(notice.text)) this.made.push(undefined);
      say(about, notice);
    };
    this.pane.questions.ask = async ({ text, title, answers }) => {
      const name = /"([^"]*)"/.exec(title)?.[1] ?? "";
      const users = this.book.formulas.filter(({ instruments }) => instruments.includes(name));
      this.whileAsked();
      await new Promise((resolve) => setTimeout(resolve, 5));
      const given = this.answer(answers.map(({ answer }) => answer));
      if (given === "delete" || given === "alone")
        // The question names their number, and that they will show #N/A.
        if (text.includes("#N/A")) for (const { address } of users) this.mayFail.add(address);
      return answers.find(({ answer }) => answer === given)?.answer;
    };
    for (let row = 2; row <= 7; row++) this.type(`Glass ${"ABC".charAt(row % 3)}`, row);
  }

  /** The instruments that the workbook holds. */
  get stored(): InstrumentSet {
    const { set } = storedInstruments(this.book.parts);
    if (!set) throw new Error("The parts cannot be read.");
    return set;
  }

  /** Starts the pane, and waits until nothing is under way. */
  async start(): Promise<void> {
    const view = () => {
      throw new Error("Nothing is drawn here.");
    };
    const screen = { title: "", view };
    this.pane.start({
      Instruments: screen,
      Functions: screen,
      Cell: screen,
      Workbook: screen,
      About: screen,
    });
    await vi.runAllTimersAsync();
  }

  /** Someone types a formula into the sheet. */
  type(name: string, row = (this.#typed += 1)): string {
    const address = `C${row}`;
    this.book.type(address, formulaOf(row, name));
    const typed = this.book.formulas.find((formula) => formula.address === address);
    if (typeof typed?.value !== "number") this.mayFail.add(address);
    return address;
  }

  undo(): void {
    const notice = this.pane.notices.get("edit");
    if (!notice?.actions?.[0]) return;
    this.pane.notices.dismiss("edit");
    notice.actions[0].run();
  }

  /** A co-author saves, over what the workbook holds or over what they saw earlier. */
  coAuthor(edit: (set: InstrumentSet) => InstrumentSet, seen = this.stored): void {
    this.book.parts = [writePart(edit(seen))];
    this.book.lookAgain();
  }

  /** What a formula's cell has to show by the instruments of the workbook. */
  due(address: string): unknown {
    const row = Number(address.slice(1));
    const [name = ""] = this.book.formulas.find((each) => each.address === address)?.instruments ?? [];
    const { cells } = this.book;
    const args = [[[cells[`A${row}`]]], [[cells[`B${row}`]]], [[name]]];
    const [[result] = []] = evaluate("HYDROMETER", args, this.stored);
    return typeof result === "object" ? result.code : result;
  }

  /** Has an edit made, and knows of it if it was. */
  async makes(edit: Promise<boolean>, made?: { readonly name: string; readonly at: number }): Promise<void> {
    const troubles = this.#troubles;
    if (await edit) this.made.push(made);
    else if (this.#troubles === troubles) throw new Error("An edit failed, and nobody was told.");
  }

  get #troubles(): number {
    return this.told.filter(({ about }) => about === "trouble").length;
  }

  /** What is not as it has to be, once nothing is under way. */
  faults(): string[] {
    const { book, pane, stored, made } = this;
    const faults: string[] = [];
    for (const [i, one] of made.entries()) {
      if (!one || made.slice(i + 1).some((later) => !later || later.name === one.name)) continue;
      const is = (profile: Profile | undefined): boolean =>
        profile?.kind === "hydrometer" && profile.calibrationTemperature === one.at;
      if (
        !is(findInstrument(stored, one.name)) &&
        !pane.instruments.conflicts.all.some(({ profile }) => is(profile))
      )
        faults.push(`The edit of ${one.name} is lost, and nobody is told.`);
    }
    if (!sameSets(pane.instruments.set, stored))
      faults.push("The pane shows other instruments than the workbook holds.");
    if (book.parts.length !== 1) faults.push(`There are ${book.parts.length} parts.`);
    for (const { address, value, instruments } of book.formulas) {
      const due = this.due(address);
      const isMissing = !instruments.every((name) => findInstrument(stored, name));
      if (isMissing && typeof value === "number") {
        // Of a cell that the user gave up but nobody can reach, the failure is told.
        if (!this.#isListed("missing", address) && !this.#isListed("cells", address))
          faults.push(`${address} keeps a number, and nobody is told.`);
      } else if (isMissing && !this.mayFail.has(address)) faults.push(`${address} lost its number unasked.`);
      else if (value !== due && !this.#isListed("cells", address))
        faults.push(`${address} shows ${String(value)}, not ${String(due)}, and nobody is told.`);
    }
    return faults;
  }

  #isListed(about: "missing" | "cells", address: string): boolean {
    const lines = this.pane.notices.get(about)?.details ?? [];
    return lines.some((line) => line.startsWith(`Season ${address}:`));
  }
}

/** What the brewer and the co-author do, one of these at a time. */
export type Doing = (season: SlowSeason, random: () => number) => Promise<unknown> | undefined;

const some = <T>(list: readonly T[], random: () => number): T | undefined =>
  list[Math.floor(random() * list.length)];

const someName = ({ pane }: SlowSeason, random: () => number): string =>
  some(pane.instruments.set.instruments, random)?.name ?? "Glass A";

/** A temperature that nobody has given before. */
let given = 0;
const fresh = (): number => 10 + ((given += 1) % 2000) / 100;

export const edit: Doing = (season, random) => {
  const name = someName(season, random);
  const at = fresh();
  const done = season.pane.instruments.change(
    (set, now) => put(set, glass(name, at), now),
    `"${name}" is saved.`,
  );
  return season.makes(done, { name, at });
};

export const addOne: Doing = ({ pane }) =>
  pane.instruments.change((set, now) => add(set, glass(freeName(set, "Glass"), fresh()), now), "Added.");

export const undo: Doing = (season) => {
  season.undo();
  return undefined;
};

/** For a while the workbook cannot be read. */
export const fail: Doing = ({ book }) => {
  book.failing = "A cell is being edited. Finish it with Enter or Esc, then try again.";
  setTimeout(() => {
    book.failing = undefined;
  }, 40);
  return undefined;
};

export const typeFormula: Doing = (season, random) => {
  season.type(someName(season, random));
  return undefined;
};

export const coAuthorEdits: Doing = (season, random) => {
  const name = some(season.stored.instruments, random)?.name;
  if (name !== undefined) season.coAuthor((set) => put(set, glass(name, fresh()), new Date().toISOString()));
  return undefined;
};

export const coAuthorDeletes: Doing = (season, random) => {
  const name = some(season.stored.instruments, random)?.name;
  if (name !== undefined) season.coAuthor((set) => takeOut(set, name, new Date().toISOString()));
  return undefined;
};

export const lock: Doing = ({ book }, random) => {
  const address = some(book.formulas, random)?.address;
  book.locked = book.locked.length > 0 || address === undefined ? [] : [address];
  return undefined;
};

/** Does many things at random moments, and waits until nothing is under way. */
export async function interleave(season: SlowSeason, doings: readonly Doing[], seed: number): Promise<void> {
  const random = seeded(seed);
  const all: Promise<unknown>[] = [];
  for (let i = 0; i < 14; i++) {
    const doing = some(doings, random);
    setTimeout(
      () => {
        const done = doing?.(season, random);
        if (done) all.push(done);
      },
      Math.round(random() * 400),
    );
  }
  await vi.runAllTimersAsync();
  await Promise.all(all);
  // Hosts look again every now and then, also after a time in which nothing could be read.
  season.book.lookAgain();
  await vi.runAllTimersAsync();
}
