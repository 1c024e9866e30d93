import { DOCS_FORMULA_BAR_EDITOR_UNIT_ID_KEY, DOCS_NORMAL_EDITOR_UNIT_ID_KEY } from "@univerjs/core";
import { IEditorBridgeService, IEditorService } from "@univerjs/preset-sheets-core";
import type { UniverSheet } from "./univer.js";

const focusable = (editor: string): string => `__editor_${editor}`;

/**
 * Keeps the focus in the formula bar once it has been clicked. Univer moves it to the cell up to two frames after
 * editing has begun, even if it began in the bar; text typed after that was neither shown nor stored.
 */
export function keepFocusInFormulaBar(container: HTMLElement, { univer }: UniverSheet): void {
  const injector = univer.__getInjector();
  const editors = injector.get<IEditorService>(IEditorService);
  const bridge = injector.get<IEditorBridgeService>(IEditorBridgeService);
  container.addEventListener(
    "focusin",
    ({ target }) => {
      const isCell = target instanceof Element && target.id === focusable(DOCS_NORMAL_EDITOR_UNIT_ID_KEY);
      // If the user moves to the cell on purpose, the focus has already left the bar.
      if (
        isCell &&
        bridge.isVisible().visible &&
        editors.getFocusId() === DOCS_FORMULA_BAR_EDITOR_UNIT_ID_KEY
      )
        document.getElementById(focusable(DOCS_FORMULA_BAR_EDITOR_UNIT_ID_KEY))?.focus();
    },
    { capture: true },
  );
}
