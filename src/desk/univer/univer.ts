import { LocaleType, LogLevel, mergeLocales, Univer } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import { IFunctionService } from "@univerjs/engine-formula";
import { CalculationMode, UniverSheetsCorePreset } from "@univerjs/preset-sheets-core";
import english from "@univerjs/preset-sheets-core/locales/en-US";
import type { CellFunctions } from "../../engine/ours/cell-functions.js";
import { univerFunctions } from "../../engine/univer/univer-functions.js";
import { fixUniver } from "../../engine/univer/univer-fixes.js";
import { asError, nativeClasses, withheld } from "../../engine/univer/univer-natives.js";
import type { ErrorMessages } from "./error-messages.js";
import { hiddenMenus } from "./unsaved-commands.js";

type Formulas = NonNullable<NonNullable<Parameters<typeof UniverSheetsCorePreset>[0]>["formula"]>;

/** Univer in this page, with our functions among its own. */
export interface UniverSheet {
  readonly univer: Univer;
  readonly api: FUniver;
  /** Whether a function of this name, in capitals, is calculated here, and as Excel does. */
  readonly knows: (name: string) => boolean;
}

/** The empty workbook that shows until one is opened. */
export const START = "start";

/** @param container that the sheet fills */
export function startUniver(
  container: HTMLElement,
  functions: CellFunctions,
  messages: ErrorMessages,
): UniverSheet {
  fixUniver();
  const univer = new Univer({
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: mergeLocales(english) },
    logLevel: LogLevel.ERROR,
  });
  const { classes, descriptions } = univerFunctions(functions, messages.tell);
  // Univer's type knows only the names of its own functions.
  const formula = {
    function: [...nativeClasses(asError), ...classes],
    description: descriptions,
    // Values that the file has beside formulas are trusted; ours come without.
    initialFormulaComputing: CalculationMode.WHEN_EMPTY,
  } as unknown as Formulas;
  const { plugins } = UniverSheetsCorePreset({
    container,
    formula,
    toolbar: false,
    menu: hiddenMenus,
    footer: { menus: false, addSheetButtonConfig: { show: false } },
    // Text that looks like a number is meant as text here, and our functions say so.
    disableTextFormatAlert: true,
    disableTextFormatMark: true,
    sheets: { disableForceStringAlert: true, disableForceStringMark: true },
  });
  for (const plugin of plugins) {
    if (Array.isArray(plugin)) univer.registerPlugin(...plugin);
    else univer.registerPlugin(plugin);
  }
  const api = FUniver.newAPI(univer);
  // Univer has its functions only once there is a workbook.
  api.createWorkbook({ id: START, name: START });
  const library = univer.__getInjector().get<IFunctionService>(IFunctionService);
  library.unregisterExecutors(...withheld);
  library.unregisterDescriptions(...withheld);
  return { univer, api, knows: (name) => library.hasExecutor(name) && !withheld.includes(name) };
}
