import {
  DOCS_FORMULA_BAR_EDITOR_UNIT_ID_KEY,
  DOCS_NORMAL_EDITOR_UNIT_ID_KEY,
  ICommandService,
} from "@univerjs/core";
import { KeyCode } from "@univerjs/preset-sheets-core";
import type { UniverSheet } from "./univer.js";

/** Keys that choose from the list or leave it open. */
const forTheList = new Set([
  ...["ArrowUp", "ArrowDown", "Enter", "Tab", "Escape"],
  ...["Shift", "Control", "Alt", "Meta"],
]);

const commandsOfLists = [DOCS_NORMAL_EDITOR_UNIT_ID_KEY, DOCS_FORMULA_BAR_EDITOR_UNIT_ID_KEY].map(
  (editor) => `sheet.formula-embedding-editor.search_function.${editor}`,
);

/**
 * Closes Univer's list of function names when the user types on. Otherwise it would show outdated matches until a pause
 * of 0.3 s, and Enter would insert one of them in place of the typed text: "=A1*E", a pause, "4" and Enter gave
 * "=A1*EFFECT(".
 */
export function closeStaleAutocomplete(container: HTMLElement, { univer }: UniverSheet): void {
  const commands = univer.__getInjector().get<ICommandService>(ICommandService);
  container.addEventListener(
    "keydown",
    ({ key }) => {
      if (forTheList.has(key)) return;
      // The command of a list exists only while the list is open.
      for (const id of commandsOfLists)
        if (commands.hasCommand(id)) commands.syncExecuteCommand(id, { keyCode: KeyCode.ESC });
    },
    { capture: true },
  );
}
