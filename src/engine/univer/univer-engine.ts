import { lastColumn, lastRow } from "../../cells/limits.js";
import {
  BooleanNumber,
  LocaleType,
  LogLevel,
  ObjectMatrix,
  Univer,
  UniverInstanceType,
  type ICellData,
} from "@univerjs/core";
import {
  AstTreeBuilder,
  FORMULA_REF_TO_ARRAY_CACHE,
  generateAstNode,
  IFormulaCurrentConfigService,
  IFormulaRuntimeService,
  IFunctionService,
  Interpreter,
  Lexer,
  UniverFormulaEnginePlugin,
  type IUniverEngineFormulaConfig,
} from "@univerjs/engine-formula";
import type { Position } from "../../cells/place.js";
import { MAX_CELLS } from "../compiled/cells.js";
import type { CellTest, Interpreter as AnyInterpreter } from "../interpreter.js";
import { engineText } from "../references/engine-text.js";
import type { Surroundings } from "../references/surroundings.js";
import type { Translation } from "../references/translation.js";
import type { CellFunctions } from "../ours/cell-functions.js";
import type { Grid } from "../grid.js";
import { tooManyCells } from "../messages.js";
import { type FormulaValue } from "../values.js";
import { fromUniver, toUniverCell } from "./univer-values.js";
import { univerFunctions } from "./univer-functions.js";
import { fixUniver } from "./univer-fixes.js";
import { nativeClasses } from "./univer-natives.js";

/** Univer caches parsed formulas by the id of their book for as long as the program runs, so no two may share one. */
let books = 0;

const sheetId = (sheet: number): string => `s${String(sheet)}`;
const rowCount = lastRow + 1;
const columnCount = lastColumn + 1;

/** Cells of one sheet as Univer reads them. */
class GridCells extends ObjectMatrix<ICellData> {
  /** How many more cells the present formula may read. */
  #left = MAX_CELLS;

  constructor(
    readonly grid: Grid,
    readonly sheet: number,
    readonly isSubtotal: CellTest,
  ) {
    super();
  }

  nextFormula(): void {
    this.#left = MAX_CELLS;
  }

  override getValue(row: number, column: number): ICellData {
    if (--this.#left < 0) throw new RangeError(tooManyCells(MAX_CELLS));
    const cell = toUniverCell(this.grid.get(this.sheet, row, column));
    // Univer takes a missing cell as blank, though its type does not say so.
    return (
      cell && this.isSubtotal(this.sheet, row, column) ? { ...cell, f: "=SUBTOTAL()" } : cell
    ) as ICellData;
  }
}

type HiddenRows = Grid["hiddenRows"][number];

const hiddenInUniver = (rows: HiddenRows): Record<number, { readonly hd: BooleanNumber }> =>
  Object.fromEntries([...(rows?.keys() ?? [])].map((row) => [row, { hd: BooleanNumber.TRUE }]));

/** Univer searches the list for each row, which is slow when the list is as long as the column. */
function filteredInUniver(rows: HiddenRows): number[] {
  return Object.assign<number[], Pick<number[], "includes">>([], {
    includes: (row) => rows?.get(row) === "filter",
  });
}

/** A formula parsed by Univer. */
export type Parsed = ReturnType<typeof generateAstNode>;

/**
 * Univer's formula engine without sheets, commands or a page: one formula at a time, in the order that the caller
 * determines. Its own dependency tree and result cache are not used.
 */
export class UniverEngine implements AnyInterpreter {
  readonly #book = `book${String(++books)}`;
  readonly #univer: Univer;
  readonly #lexer: Lexer;
  readonly #builder: AstTreeBuilder;
  readonly #interpreter: Interpreter;
  readonly #config: IFormulaCurrentConfigService;
  readonly #runtime: IFormulaRuntimeService;
  readonly #functions: IFunctionService;
  #cells: readonly GridCells[] = [];

  constructor(
    readonly sheetNames: readonly string[],
    functions: CellFunctions,
  ) {
    fixUniver();
    const ids = sheetNames.map((_, sheet) => sheetId(sheet));
    const sheets = Object.fromEntries(
      ids.map((id, sheet) => [id, { id, name: sheetNames[sheet] ?? id, rowCount, columnCount }]),
    );
    this.#univer = new Univer({
      locale: LocaleType.EN_US,
      locales: { [LocaleType.EN_US]: {} },
      logLevel: LogLevel.ERROR,
    });
    // Its type knows only the names of its own functions.
    const classes = [...nativeClasses(), ...univerFunctions(functions).classes];
    this.#univer.registerPlugin(UniverFormulaEnginePlugin, {
      function: classes as unknown as NonNullable<IUniverEngineFormulaConfig["function"]>,
    });
    this.#univer.createUnit(UniverInstanceType.UNIVER_SHEET, {
      id: this.#book,
      name: this.#book,
      sheetOrder: ids,
      sheets,
    });
    const injector = this.#univer.__getInjector();
    this.#lexer = injector.get(Lexer);
    this.#builder = injector.get(AstTreeBuilder);
    this.#interpreter = injector.get(Interpreter);
    this.#config = injector.get<IFormulaCurrentConfigService>(IFormulaCurrentConfigService);
    this.#runtime = injector.get<IFormulaRuntimeService>(IFormulaRuntimeService);
    this.#functions = injector.get(IFunctionService);
  }

  read(grid: Grid, isSubtotal: CellTest): void {
    this.#cells = this.sheetNames.map((_, sheet) => new GridCells(grid, sheet, isSubtotal));
    this.forgetRanges();
    this.#runtime.reset();
    const names = this.sheetNames.map((name, sheet) => [name, sheetId(sheet)] as const);
    const data = this.#cells.map((cellData, sheet) => {
      const rowData = hiddenInUniver(grid.hiddenRows[sheet]);
      return [sheetId(sheet), { cellData, rowCount, columnCount, rowData, columnData: {} }] as const;
    });
    this.#config.getFilteredOutRows = (_, sheet) =>
      filteredInUniver(grid.hiddenRows[this.#cells.findIndex((__, i) => sheetId(i) === sheet)]);
    this.#config.load({
      allUnitData: { [this.#book]: Object.fromEntries(data) },
      unitSheetNameMap: { [this.#book]: Object.fromEntries(names) },
      unitStylesData: {},
      formulaData: {},
      arrayFormulaCellData: {},
      arrayFormulaRange: {},
      forceCalculate: false,
      dirtyRanges: [],
      dirtyNameMap: {},
      dirtyDefinedNameMap: {},
      dirtyUnitFeatureMap: {},
      dirtyUnitOtherFormulaMap: {},
    });
  }

  prepare(formula: Translation, base: Position, around: Surroundings): (at: Position) => FormulaValue {
    const node = this.parse(engineText(formula, base, around));
    return (at) => this.evaluate(node, at, base);
  }

  /** Parses the text of a formula. */
  parse(text: string): Parsed {
    return generateAstNode(this.#book, text, this.#lexer, this.#builder, this.#config);
  }

  /**
   * The value of a parsed formula in a cell.
   *
   * @param base the cell for which its text was written; references without "$" are relative to it
   * @throws any error of Univer for a formula that is too much for it
   */
  evaluate(node: Parsed, at: Position, base: Position): FormulaValue {
    for (const cells of this.#cells) cells.nextFormula();
    this.#runtime.setCurrent(at.row, at.column, rowCount, columnCount, sheetId(at.sheet), this.#book);
    try {
      const moved = { node, refOffsetX: at.column - base.column, refOffsetY: at.row - base.row };
      return fromUniver(this.#interpreter.execute(moved));
    } finally {
      node.resetCalculationState();
    }
  }

  forgetRanges(): void {
    FORMULA_REF_TO_ARRAY_CACHE.clear();
  }

  dispose(): void {
    this.#univer.dispose();
  }
}
