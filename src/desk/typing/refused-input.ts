type Field = HTMLInputElement | HTMLElement;

/** What is typed into cells is no command's name for something: it is read, not refused. */
const isField = (target: EventTarget | null): target is Field =>
  target instanceof HTMLElement && !target.id.startsWith("__editor_");

const shown = (field: Field): string => ("value" in field ? field.value : field.textContent);

/**
 * Remembers what a field of the sheet showed before someone typed into it, so that none goes on showing what was refused: another
 * name on a tab, a name for cells.
 *
 * @returns has the field that was just typed into show again what it did; to be called when a command is refused
 */
export function watchFields(container: HTMLElement): () => void {
  let edited: { readonly field: Field; readonly before: string } | undefined;
  const listen = (on: EventTarget, type: string, listener: (event: Event) => void): void => {
    on.addEventListener(type, listener, { capture: true });
  };

  listen(container, "focusin", () => {
    edited = undefined;
  });
  listen(container, "beforeinput", ({ target }) => {
    if (isField(target) && edited?.field !== target) edited = { field: target, before: shown(target) };
  });
  // The key or click by which the field is left still belongs to it; the next one is something else that someone does.
  for (const gesture of ["keydown", "pointerdown"])
    listen(document, gesture, () => {
      if (document.activeElement !== edited?.field) edited = undefined;
    });

  return () => {
    if (edited) show(edited.field, edited.before);
    edited = undefined;
  };
}

function show(field: Field, text: string): void {
  if (shown(field) === text) return;
  if (!(field instanceof HTMLInputElement)) {
    field.textContent = text;
    return;
  }
  // React looks only at what comes by the browser's own setter.
  Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")?.set?.call(field, text);
  field.dispatchEvent(new Event("input", { bubbles: true }));
}
