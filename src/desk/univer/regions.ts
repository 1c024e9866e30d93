/** A part of the page that F6 focuses as a whole. */
export interface Region {
  readonly element: HTMLElement;
  readonly isShown: () => boolean;
  readonly focus: () => void;
}

/**
 * F6 moves to the next part of the page and Shift+F6 to the previous one, as in spreadsheet programs: inside the sheet
 * the Tab key moves between cells only.
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
