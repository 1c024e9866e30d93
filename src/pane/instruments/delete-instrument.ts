import { takeOut } from "../../instruments/edits.js";
import type { Pane } from "../pane.js";
import { formulaCount } from "../parts/usage.js";
import { usersNow } from "./users-now.js";

/**
 * Deletes an instrument from the workbook once the user knows which formulas will lose their results.
 *
 * @returns whether it was deleted
 */
export async function deleteInstrument(pane: Pane, name: string): Promise<boolean> {
  const users = await usersNow(pane, name);
  if (!users) return false;
  const uses = `It is named in ${formulaCount(users.length)}, which will show #N/A until there is an instrument of this name again.`;
  const answer = await pane.questions.ask({
    title: `Delete "${name}"?`,
    text: users.length > 0 ? uses : "No formula names it.",
    answers: [{ answer: "delete", label: "Delete", tone: "danger" }],
  });
  if (answer !== "delete") return false;
  return pane.instruments.change((set, now) => takeOut(set, name, now), `"${name}" is deleted.`, {
    agreed: users,
  });
}
