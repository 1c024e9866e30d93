/// <reference types="office-js" />

/** How the page was started. */
export type PageStart =
  | { readonly kind: "ready" }
  | {
      readonly kind: "outside" | "silent" | "old";
      /** A sentence for the user. */
      readonly why: string;
    };

/** The longest wait for a slow network; after that the user is told. */
const PATIENCE_MS = 20_000;

const outside =
  "This page is a part of Gylesheet that works inside Excel. Install the add-in and open it from the Home tab.";
const silent =
  "Excel does not answer. Check the connection, then close this pane and open it again. If that does not help, restart Excel.";
const old = (set: string, version: string): string =>
  `This Excel is too old for Gylesheet: it lacks ${set} ${version}. Excel on the web, or Excel for Microsoft 365 on ` +
  "Windows (version 2008 or later) or Mac (16.40 or later), has it.";

const needed = [
  ["SharedRuntime", "1.1"],
  ["CustomFunctionsRuntime", "1.3"],
  ["ExcelApi", "1.9"],
] as const;

/** Waits for Excel, up to a limit. */
export async function excelStart(patienceMs = PATIENCE_MS): Promise<PageStart> {
  // If the host's own script is blocked, Office is undefined.
  if (typeof Office === "undefined") return { kind: "silent", why: silent };
  let timer: ReturnType<typeof setTimeout> | undefined;
  const timeUp = new Promise<undefined>((resolve) => {
    timer = setTimeout(resolve, patienceMs, undefined);
  });
  const info = await Promise.race([Office.onReady(), timeUp]);
  clearTimeout(timer);
  if (!info) return { kind: "silent", why: silent };
  if (info.host !== Office.HostType.Excel) return { kind: "outside", why: outside };
  const lacking = needed.find(([set, version]) => !Office.context.requirements.isSetSupported(set, version));
  return lacking ? { kind: "old", why: old(lacking[0], lacking[1]) } : { kind: "ready" };
}
