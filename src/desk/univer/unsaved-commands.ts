// The desk saves values and formulas into the file that it opened and leaves the rest of the file unchanged. Commands
// whose effect it could not save are not offered, and are refused if a key or a drag triggers them.

const ids = (list: string): readonly string[] => list.trim().split(/\s+/);

/** Menu items of Univer that change what is not saved. */
const menus = ids(`
  sheet.menu.cell-insert sheet.menu.delete sheet.contextMenu.permission sheet.contextMenu.text-to-number
  sheet.command.insert-row-before sheet.command.insert-col-before sheet.command.insert-multi-rows-above
  sheet.command.insert-multi-rows-after sheet.command.insert-multi-cols-before sheet.command.insert-multi-cols-right
  sheet.command.remove-row-confirm sheet.command.remove-col-confirm
  sheet.command.clear-selection-format sheet.command.clear-selection-all
  sheet.command.paste-format sheet.command.paste-col-width sheet.command.paste-besides-border
  sheet.command.remove-sheet-confirm sheet.command.copy-sheet sheet.operation.rename-sheet sheet.command.set-tab-color
  sheet.command.set-worksheet-hidden sheet.command.add-range-protection-from-sheet-bar
  sheet.command.delete-worksheet-protection-from-sheet-bar sheet.command.change-sheet-protection-from-sheet-bar
  sheet.command.view-sheet-permission-from-sheet-bar`);

/** For Univer's "menu" option. */
export const hiddenMenus: Readonly<Record<string, { readonly hidden: true }>> = Object.fromEntries(
  menus.map((id) => [id, { hidden: true } as const]),
);

const structure =
  /^sheet\.command\.(insert-(row|col|multi|range|sheet)|remove-(row|col|sheet)|delete-range-move|move-(rows|cols)|copy-sheet|add-worksheet-merge|remove-worksheet-merge|set-worksheet-(name|order|hidden)|set-tab-color|insert-defined-name|set-defined-name|remove-defined-name|split-text)/;
const formats =
  /^sheet\.command\.(set-(style|range-(bold|italic|underline|stroke|font|text|sub|super)|bold|italic|underline|stroke|overline|font|text|background|border|horizontal|vertical)|reset-|numfmt\.|clear-selection-(format|all)|paste-(format|col-width|besides-border)|apply-format-painter|set-(once|infinite)-format-painter)/;
const protection = /protection|permission/;

/** Why a command is refused; undefined for one that may run. */
export function refusalOf(command: string): string | undefined {
  if (structure.test(command))
    return "Rows, columns, sheets and names stay as they are here: the desk saves values and formulas. Change them in a spreadsheet program.";
  if (formats.test(command))
    return "Formats stay as they are here: the desk saves values and formulas. Change them in a spreadsheet program.";
  if (command.startsWith("sheet.command.") && protection.test(command))
    return "Protection stays as it is here. Change it in a spreadsheet program.";
  return undefined;
}

const views =
  /^sheet\.mutation\.(set-worksheet-(col-width|row-height)|set-(row|col)-(hidden|visible)|set-frozen|toggle-gridlines)$/;

/** Whether a mutation only changes the view, which is allowed but not saved. */
export function isViewChange(mutation: string): boolean {
  return views.test(mutation);
}

/** Whether a mutation merges or unmerges cells, as part of pasting, filling or moving cells. */
export function isMerging(mutation: string): boolean {
  return (
    mutation === "sheet.mutation.add-worksheet-merge" || mutation === "sheet.mutation.remove-worksheet-merge"
  );
}
