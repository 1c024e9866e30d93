// Entry of the pane's bundle. The page loads the functions bundle before it, as a classic script, because Excel calls
// the functions as soon as it is ready, whether or not the pane is visible.
import { startPane } from "../pane/start.js";
import { cellFunctions, namespace } from "./cell-functions.js";
import { excelHost } from "./host.js";
import { excelStart } from "./start/office.js";
import { excelParts } from "./workbook/parts.js";
import { loadWithWorkbook } from "./start/startup.js";
import { sentenceFor } from "./problem.js";
import { applyTheme } from "./start/theme.js";

const root = document.getElementById("pane") ?? document.body;

function say(sentence: string): void {
  const paragraph = document.createElement("p");
  paragraph.setAttribute("role", "alert");
  paragraph.textContent = sentence;
  root.replaceChildren(paragraph);
}

const incomplete =
  "Gylesheet has not arrived as a whole. Check the connection, then close this pane and open it again.";

async function main(): Promise<void> {
  const start = await excelStart();
  const functions = cellFunctions();
  if (start.kind !== "ready" || !functions) {
    const why = start.kind === "ready" ? incomplete : start.why;
    functions?.refuse(why);
    say(why);
    return;
  }
  applyTheme();
  // Before anything else the pane reads the instruments and passes them to the functions: cells may be waiting.
  startPane(root, excelHost(excelParts(loadWithWorkbook), functions, namespace()));
}

main().catch((error: unknown) => {
  say(sentenceFor(error));
});
