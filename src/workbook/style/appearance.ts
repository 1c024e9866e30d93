import type { PartSource } from "../package/package.js";
import { related } from "../package/relationships.js";
import { readSheetAppearance, type SheetAppearance } from "../sheet/sheet-appearance.js";
import { readStyles, type CellStyle } from "./styles.js";
import { readThemeColours } from "./theme-colours.js";
import type { WorkbookPart } from "../package/workbook-part.js";

/**
 * Appearance of a workbook, as far as a sheet on a screen can show it. Charts, pictures and conditional formats are
 * left out.
 */
export interface Appearance {
  /** Styles, indexed by cells, columns and rows. */
  readonly styles: readonly CellStyle[];
  /** In the order of the model's sheets. */
  readonly sheets: readonly SheetAppearance[];
}

/** @throws WorkbookError if one of the parts is damaged */
export function readAppearance(source: PartSource, main: WorkbookPart): Appearance {
  const theme = related(source, main.part, "theme")[0]?.target;
  const styles = related(source, main.part, "styles")[0]?.target;
  const has = (part: string | undefined): part is string =>
    part !== undefined && source.find(part) !== undefined;
  const colours = has(theme) ? readThemeColours(theme, source.text(theme)) : [];
  return {
    styles: has(styles) ? readStyles(styles, source.text(styles), colours) : [],
    sheets: main.sheets.map(({ part, hidden }) => readSheetAppearance(part, source.text(part), hidden)),
  };
}
