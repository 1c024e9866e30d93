// Native formulas at the desk, whose sheet has an engine of its own, against those of recalc.
import { expect, test } from "vitest";
import { ours, uncalculated } from "../native/engines.js";
import { randomFormulas } from "../native/random-book.js";
import { chromium } from "../support/tools.js";
import { becomes, deskSession, isOpen, open } from "./desk-session.js";

const COUNT = 400;

const desk = deskSession();

/** Errors come from the page as their text, and a blank result shows 0. */
const shown = (value: unknown): unknown =>
  typeof value === "object" && value !== null && "error" in value ? value.error : (value ?? 0);

test.skipIf(!chromium.present)("400 random native formulas have the same values at the desk", async () => {
  // The functions that wrap results here have no #CALC!, which TAKE of nothing comes to.
  const formulas = randomFormulas(7, COUNT).filter((formula) => !/TAKE|DROP/.test(formula));
  const { results } = ours(formulas);
  const page = await desk("/");
  await open(page, "native.xlsx", uncalculated(formulas));
  await isOpen(page, "native.xlsx");
  const rows = await becomes(page, `Formulas!A1:A${formulas.length}`, (all) =>
    all.some(([value]) => value !== null),
  );
  const different = formulas.flatMap((formula, i) => {
    const expected = results[i];
    const value = rows[i]?.[0] ?? null;
    const alike =
      expected === undefined ||
      shown(value) === shown(expected) ||
      (typeof value === "number" &&
        typeof expected === "number" &&
        Math.abs(value - expected) <= 1e-9 * Math.abs(expected));
    return alike ? [] : [{ formula, desk: value, recalc: shown(expected) }];
  });
  expect(different).toEqual([]);
});
