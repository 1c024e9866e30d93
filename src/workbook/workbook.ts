import { readAppearance, type Appearance } from "./style/appearance.js";
import { dropCalcChain } from "./package/calc-chain.js";
import { typeOf } from "./package/content-types.js";
import {
  dropCustomXml,
  readCustomXml,
  writeCustomXml,
  type CustomXml,
  type NewCustomXml,
} from "./package/custom-xml.js";
import { WorkbookError } from "./error.js";
import { foreignFile, foreignPackage } from "./package/foreign-file.js";
import { readDynamicMetadata } from "./sheet/metadata.js";
import { ensureDynamicMetadata } from "./sheet/metadata-write.js";
import type { CellChange, SheetModel, WorkbookModel } from "./model.js";
import { addSheet, type NewSheet } from "./sheet/new-sheet.js";
import { addNotes } from "./notes/notes.js";
import { PackagePatch } from "./package/package-patch.js";
import { Package } from "./package/package.js";
import { related } from "./package/relationships.js";
import { readSharedStrings } from "./sheet/shared-strings.js";
import type { SheetLayout } from "./sheet/sheet-layout.js";
import { patchSheet } from "./sheet/sheet-patch.js";
import { hiddenRows } from "./sheet/hidden-rows.js";
import { readSheet } from "./sheet/sheet-read.js";
import { readTables } from "./sheet/tables.js";
import { unzip } from "./package/unzip.js";
import { isSigned, workbookKind, type WorkbookKind } from "./package/workbook-kind.js";
import { readWorkbookPart, type WorkbookPart } from "./package/workbook-part.js";
import { splice } from "./xml/xml-splice.js";

/** A note for a cell. */
export interface Note {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

/** Additions of a patch besides cell values. */
export interface PatchExtras {
  readonly customXml?: readonly NewCustomXml[];
  /** Paths of custom XML documents to remove. */
  readonly droppedCustomXml?: readonly string[];
  readonly notes?: readonly Note[];
  /** Sheets to add after all others. */
  readonly sheets?: readonly NewSheet[];
}

/** An opened workbook. It is immutable: a patch gives a new file. */
export interface Workbook {
  readonly model: WorkbookModel;

  /** By its content, whatever the file is called; undefined if no extension belongs to it. */
  readonly kind: WorkbookKind | undefined;

  /** Any change invalidates the signature. */
  readonly isSigned: boolean;

  /**
   * Read on demand: calculation does not need it.
   *
   * @throws WorkbookError if a part with appearance is damaged
   */
  appearance(): Appearance;

  /**
   * Custom XML documents whose root element is in the namespace.
   *
   * @throws WorkbookError if such a document is damaged
   */
  customXml(namespace: string): CustomXml[];

  /**
   * The file with the changes applied. Elements of unchanged cells and untouched parts stay byte for byte and in place.
   *
   * @throws WorkbookError for a sheet or cell that the workbook does not have, and for damaged parts that must change
   * @throws RangeError for a value that no cell can hold
   */
  patch(changes: readonly CellChange[], extras?: PatchExtras): Promise<Uint8Array>;
}

/**
 * Opens an .xlsx or .xlsm workbook.
 *
 * @throws WorkbookError for any other file, and for one that is encrypted, damaged, or larger than the limits allow
 */
export async function openWorkbook(bytes: Uint8Array): Promise<Workbook> {
  const foreign = foreignFile(bytes);
  if (foreign !== undefined) throw new WorkbookError(foreign);
  const source = new Package(await unzip(bytes));
  return new OpenWorkbook(source, readWorkbookPart(source, findWorkbookPart(source)));
}

function findWorkbookPart(source: Package): string {
  const part = related(source, "", "officeDocument")[0]?.target;
  const foreign = foreignPackage(source, part === undefined ? undefined : typeOf(source, part));
  if (foreign !== undefined || part === undefined)
    throw new WorkbookError(foreign ?? "is not an .xlsx workbook");
  return part;
}

interface OpenSheet extends Omit<SheetModel, "isProtected" | "hiddenRows"> {
  readonly isProtected: boolean;
  readonly hiddenRows: SheetModel["hiddenRows"];
  readonly layout: SheetLayout;
}

class OpenWorkbook implements Workbook {
  readonly model: WorkbookModel;
  readonly kind: WorkbookKind | undefined;
  readonly isSigned: boolean;
  private readonly sheets: readonly OpenSheet[];

  constructor(
    private readonly source: Package,
    private readonly main: WorkbookPart,
  ) {
    this.kind = workbookKind(source, main.part);
    this.isSigned = isSigned(source);
    const context = {
      strings: readSharedStrings(source, main.part),
      since1904: main.since1904,
      dynamic: readDynamicMetadata(source, main.part),
    };
    const read = main.sheets.map(({ name, part }) => ({
      name,
      ...readSheet(part, source.text(part), context),
    }));
    const tables = main.sheets.flatMap((sheet) => readTables(source, sheet));
    this.sheets = read.map(({ hidden, filter, ...sheet }) => {
      const ofTables = tables.filter((table) => table.sheet === sheet.name).map((table) => table.filter);
      return { ...sheet, hiddenRows: hiddenRows(hidden, [filter, ...ofTables]) };
    });
    this.model = {
      sheets: this.sheets.map(({ name, cells, isProtected, hiddenRows }) => ({
        name,
        cells,
        ...(isProtected && { isProtected }),
        ...(hiddenRows && { hiddenRows }),
      })),
      names: main.names,
      tables,
      iterates: main.iterates,
      ...(main.since1904 && { since1904: true }),
    };
  }

  appearance(): Appearance {
    return readAppearance(this.source, this.main);
  }

  customXml(namespace: string): CustomXml[] {
    return readCustomXml(this.source, this.main.part, namespace);
  }

  async patch(
    changes: readonly CellChange[],
    { customXml = [], droppedCustomXml = [], notes = [], sheets = [] }: PatchExtras = {},
  ): Promise<Uint8Array> {
    const patch = new PackagePatch(this.source);
    let dynamic: number | undefined;
    const spillMetadata = () => (dynamic ??= ensureDynamicMetadata(patch, this.main));
    let formulaChanged = false;
    const changesBySheet = this.bySheet(changes);
    const notesBySheet = this.bySheet(notes);
    for (const [index, { name, cells, layout }] of this.sheets.entries()) {
      const cellPatch = patchSheet(layout, cells, changesBySheet.get(name) ?? [], spillMetadata);
      const noteEdits = addNotes(patch, this.main.part, layout, notesBySheet.get(name) ?? [], index + 1);
      const edits = [...cellPatch.edits, ...noteEdits];
      if (edits.length > 0) patch.write(layout.part, splice(layout.xml, edits));
      formulaChanged ||= cellPatch.formulaChanged;
    }
    if (formulaChanged) dropCalcChain(patch, this.main.part);
    for (const document of customXml) writeCustomXml(patch, this.main, document);
    for (const sheet of sheets) addSheet(patch, this.main, sheet);
    for (const path of droppedCustomXml) dropCustomXml(patch, this.main.part, path);
    return patch.zip();
  }

  private bySheet<T extends { readonly sheet: string }>(items: readonly T[]): Map<string, T[]> {
    const groups = new Map<string, T[]>(this.sheets.map(({ name }) => [name, []]));
    for (const item of items) {
      const group = groups.get(item.sheet);
      if (!group) throw new WorkbookError(`has no sheet "${item.sheet}"`);
      group.push(item);
    }
    return groups;
  }
}
