import { version } from "../../package.json";
import type { Host } from "../pane/ports.js";
import { download } from "./download.js";
import type { FunctionsBundle } from "./functions-bundle.js";
import { DeskFormulas } from "./host-formulas.js";
import { deskSelection } from "./host-selection.js";
import type { OpenBook } from "./open-book.js";
import type { Sheet } from "./sheet.js";

/** The desk as the pane sees it, around the workbook that is open. */
export function deskHost(book: OpenBook, sheet: Sheet, { forPane }: FunctionsBundle): Host {
  const formulas = new DeskFormulas(sheet, book.workbook.model, forPane.list);
  return {
    version,
    help: "help/",
    parts: book.parts,
    formulas,
    selection: deskSelection(sheet, formulas),
    functions: forPane,
    files: {
      save: (name, text, type) => {
        download(name, new Blob([text], { type }));
      },
    },
    // Nobody else edits a workbook that is open in this page.
    onOthersEdit: () => undefined,
  };
}
