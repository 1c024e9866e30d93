/** A part of the page that has the keyboard as a whole. */
export interface Region {
  readonly element: HTMLElement;
  readonly isShown: () => boolean;
  readonly focus: () => void;
}

/**
 * F6 goes from one part of the page to the next and Shift+F6 back, as in spreadsheet programs: inside the sheet the Tab key
 * goes from cell to cell and leads nowhere else.
 */
export function regionKeys(regions: readonly Region[]): void {
  document.addEventListener(
    "keydown",
    (event) => {
      if (event.key !== "F6") return;
      event.preventDefault();
      event.stopPropagation();
      const shown = regions.filter(({ isShown }) => isShown());
      const here = shown.findIndex(({ element }) => element.contains(document.activeElement));
      const step = event.shiftKey ? -1 : 1;
      shown[(here + step + shown.length) % shown.length]?.focus();
    },
    true,
  );
}
