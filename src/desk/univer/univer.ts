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

/** Univer in this page, with our functions added to its own. */
export interface UniverSheet {
  readonly univer: Univer;
  readonly api: FUniver;
  /** Whether a function with this name, in capitals, is calculated here as in Excel. */
  readonly knows: (name: string) => boolean;
}

/** The empty workbook shown until one is opened. */
export const START = "start";

/** @param container filled by the sheet */
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
  // Univer's type only contains the names of its own functions.
  const formula = {
    function: [...nativeClasses(asError), ...classes],
    description: descriptions,
    // Values stored with formulas are trusted; our formulas come without.
    initialFormulaComputing: CalculationMode.WHEN_EMPTY,
  } as unknown as Formulas;
  const { plugins } = UniverSheetsCorePreset({
    container,
    formula,
    toolbar: false,
    menu: hiddenMenus,
    footer: { menus: false, addSheetButtonConfig: { show: false } },
    // Text that looks like a number is intended as text here, and our functions report it.
    disableTextFormatAlert: true,
    disableTextFormatMark: true,
    sheets: { disableForceStringAlert: true, disableForceStringMark: true },
  });
  for (const plugin of plugins) {
    if (Array.isArray(plugin)) univer.registerPlugin(...plugin);
    else univer.registerPlugin(plugin);
  }
  const api = FUniver.newAPI(univer);
  // Univer's functions exist only once there is a workbook.
  api.createWorkbook({ id: START, name: START });
  const library = univer.__getInjector().get<IFunctionService>(IFunctionService);
  library.unregisterExecutors(...withheld);
  library.unregisterDescriptions(...withheld);
  return { univer, api, knows: (name) => library.hasExecutor(name) && !withheld.includes(name) };
}
