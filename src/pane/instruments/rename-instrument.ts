// Renames an instrument in the workbook's instruments and in the formulas that name it.
import { rename } from "../../instruments/edits.js";
import { nameKey } from "../../instruments/name.js";
import type { Pane } from "../pane.js";
import type { OurFormula, Report } from "../ports/formulas-port.js";
import { reportNotice } from "../workbook/unreached.js";
import { formulaCount, addressKey, usersOf } from "../parts/usage.js";
import { usersNow } from "./users-now.js";

interface Renaming {
  readonly from: string;
  readonly to: string;
  /** Whether to rename it in formulas too. */
  readonly inFormulas: boolean;
  /** Formulas that the user accepts will lose their results. */
  readonly agreed: readonly OurFormula[];
  /** Addresses of formulas to leave alone. */
  readonly except: ReadonlySet<string>;
}

/**
 * Renames an instrument. If formulas name it, the user is asked whether to rename it there too.
 *
 * @param renamed called with the current name of the instrument, also after an undo
 * @returns whether it was renamed
 */
export async function renameInstrument(
  pane: Pane,
  from: string,
  to: string,
  renamed: (name: string) => void,
): Promise<boolean> {
  // Names are compared without case, so a formula with different case keeps working.
  const users = nameKey(to) === nameKey(from) ? [] : await usersNow(pane, from);
  if (!users) return false;
  // These named the new name before the instrument had it, so an undo leaves them alone.
  const except = new Set(usersOf(pane.recalculator.formulas ?? [], to).map(addressKey));
  const answer = users.length === 0 ? "alone" : await askAbout(pane, from, users);
  if (answer === undefined) return false;
  const inFormulas = answer === "formulas";
  const agreed = inFormulas ? [] : users;
  return pane.recalculator.inTurn(async () => {
    const there: Renaming = { from, to, inFormulas, agreed, except: new Set() };
    const undo = (): Promise<boolean> =>
      pane.recalculator.inTurn(async () => {
        const done = await give(pane, { ...there, from: to, to: from, agreed: [], except }, "Undone.");
        if (done) renamed(from);
        return done;
      });
    const done = await give(pane, there, `"${from}" is now "${to}".`, undo);
    if (done) renamed(to);
    return done;
  });
}

function askAbout(
  pane: Pane,
  from: string,
  users: readonly OurFormula[],
): Promise<"formulas" | "alone" | undefined> {
  return pane.questions.ask({
    title: `${formulaCount(users.length)} ${users.length === 1 ? "names" : "name"} "${from}"`,
    text: "They can be given the new name as well. Otherwise they show #N/A until there is an instrument of the old name again.",
    answers: [
      { answer: "formulas", label: "Rename in formulas too", tone: "primary" },
      { answer: "alone", label: "Only the instrument" },
    ],
  });
}

/** Renames the instrument, then the formulas. Only within a turn. */
async function give(
  pane: Pane,
  renaming: Renaming,
  said: string,
  undo?: () => Promise<boolean>,
): Promise<boolean> {
  const { from, to, inFormulas, agreed } = renaming;
  const done = await pane.instruments.change((set, now) => rename(set, from, to, now), said, {
    agreed,
    undo: undo ?? "none",
  });
  if (!done || !inFormulas) return done;
  // Formulas are calculated as soon as they are written, so the instrument must have its new name by then.
  pane.recalculator.adopt();
  const report = await pane.attempts.telling(() => rewritten(pane, renaming));
  if (report && report.done + report.failed.length > 0) {
    const notice = reportNotice(report, "rewritten");
    pane.instruments.sayDone({ ...notice, text: `${said} ${notice.text}` }, undo);
  }
  return true;
}

/**
 * Repeats until every formula has been tried, since new ones may be typed meanwhile.
 *
 * @returns how many formulas have the new name now, and which cells could not be reached
 */
async function rewritten(pane: Pane, { from, to, except }: Renaming): Promise<Report> {
  const tried = new Set<string>();
  const places = new Set<string>();
  const failed: Report["failed"][number][] = [];
  for (;;) {
    const naming = usersOf(await pane.recalculator.look(), from);
    const users = naming.filter((formula) => {
      const key = `${addressKey(formula)}\n${formula.formula}`;
      if (except.has(addressKey(formula)) || tried.has(key)) return false;
      tried.add(key);
      places.add(addressKey(formula));
      return true;
    });
    if (users.length === 0) {
      for (const formula of naming) places.delete(addressKey(formula));
      return { done: places.size, failed };
    }
    const report = await pane.tasks.run("Rewriting formulas", (work) =>
      pane.host.formulas.rename(users, from, to, work),
    );
    failed.push(...report.failed);
  }
}
