import { catalogue } from "../functions/catalogue.js";
import { helpFile } from "../functions/metadata.js";
import { kinds } from "../instruments/describe.js";
import { readingPage } from "../instruments/reading-page.js";
import { functionPage } from "./function-page.js";
import { INDEX, STYLE_SHEET, WHEN } from "./html.js";
import { indexPage } from "./index-page.js";
import { readingPageOf } from "./reading-page.js";
import { helpStyle } from "./style.js";
import { whenPage } from "./when-page.js";

/** All help files by name; they are in one folder. */
export function helpFiles(): ReadonlyMap<string, string> {
  return new Map([
    [STYLE_SHEET, helpStyle],
    [INDEX, indexPage()],
    [WHEN, whenPage()],
    ...kinds.map((kind) => [readingPage(kind), readingPageOf(kind)] as const),
    ...catalogue.map((spec) => [helpFile(spec.name), functionPage(spec)] as const),
  ]);
}
