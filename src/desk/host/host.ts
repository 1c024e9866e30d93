import release from "../../../package.json";
import { ownFunctions } from "../../formulas/own-calls.js";
import { today } from "../../handover/today.js";
import { copyName } from "../../handover/way.js";
import type { Host } from "../../pane/ports.js";
import { Emitter, type Source } from "../../pane/source.js";
import { askForCheck, askForCopy } from "../../worker/ask.js";
import { BookCells } from "./book-cells.js";
import { download, XLSX } from "./download.js";
import type { FunctionsBundle } from "../book/functions-bundle.js";
import { DeskFormulas } from "./host-formulas.js";
import { DeskSelection } from "./host-selection.js";
import type { OpenBook } from "../book/open-book.js";
import type { Sheet } from "../univer/sheet.js";

/** The desk as a host of the pane, for the open workbook. */
export function deskHost(
  book: OpenBook,
  sheet: Sheet,
  { functions, forPane }: FunctionsBundle,
  selected: Source<void>,
): Host {
  const cells = new BookCells(sheet, book.workbook.model);
  const own = ownFunctions(functions.namespace, forPane.list);
  return {
    parts: book.parts,
    functions: forPane,
    formulas: new DeskFormulas(cells, own, book.numbers, () => {
      book.rewrite();
    }),
    selection: new DeskSelection(cells, own),
    files: {
      save: (name, text, type) => {
        download(name, new Blob([text], { type }));
        return "saved";
      },
    },
    check: async (work) => askForCheck(await book.save(), work),
    handOver: async (way, work) => {
      const bytes = await book.save();
      const { bytes: copy, ...told } = await askForCopy({ bytes, way, date: today(new Date()) }, work);
      const name = copyName(book.name, way);
      download(name, new Blob([copy], { type: XLSX }));
      return { ...told, where: `The copy is among your downloads as ${name}.` };
    },
    version: `Gylesheet ${release.version} at the desk.`,
    help: new URL("help/", document.baseURI).href,
    selected,
    // Nobody else edits a workbook that is open in this page.
    edited: new Emitter(),
  };
}
