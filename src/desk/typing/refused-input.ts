type Field = HTMLInputElement | HTMLElement;

/** Cell editors are excluded: what is typed there is an entry, not the argument of a command. */
const isField = (target: EventTarget | null): target is Field =>
  target instanceof HTMLElement && !target.id.startsWith("__editor_");

const shown = (field: Field): string => ("value" in field ? field.value : field.textContent);

/**
 * Remembers the content of the sheet's input fields before editing, such as a sheet's name on its tab or a name for
 * cells, to restore it if the command is refused.
 *
 * @returns restores the field just edited; to be called when a command is refused
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
  // The key or click that leaves the field still belongs to the edit; the next one does not.
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
  // React only notices a value set by the browser's own setter.
  Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")?.set?.call(field, text);
  field.dispatchEvent(new Event("input", { bubbles: true }));
}
