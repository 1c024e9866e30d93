// Registers the add-in with Excel on this computer, and removes it again. Microsoft's package for this,
// office-addin-dev-settings, brings several hundred others and a binary to compile; for a manifest, this is all that it
// does.
import { posix, win32 } from "node:path";

/** One action: a program to run, or a file to copy or delete. */
export type SideloadStep =
  | { readonly run: string; readonly args: readonly string[] }
  | { readonly copy: string; readonly to: string }
  | { readonly remove: string };

/** Platforms on which a program can register an add-in with Excel. */
export type ExcelPlatform = "win32" | "darwin";

export interface Sideload {
  /** Succeeds if Excel is installed. */
  readonly present: SideloadStep;
  /** Registers the add-in. */
  readonly add: SideloadStep;
  /** Opens a workbook that asks for the add-in. */
  readonly open: SideloadStep;
  /** Undoes `add`. */
  readonly take: SideloadStep;
}

export interface SideloadPlace {
  readonly home: string;
  readonly manifest: string;
  readonly workbook: string;
  /** Id of the add-in. */
  readonly id: string;
}

export function isExcelPlatform(platform: NodeJS.Platform): platform is ExcelPlatform {
  return platform === "win32" || platform === "darwin";
}

/** The actions for a platform. */
export function sideload(platform: ExcelPlatform, place: SideloadPlace): Sideload {
  return platform === "win32" ? onWindows(place) : onMac(place);
}

const developerKey = "HKCU\\SOFTWARE\\Microsoft\\Office\\16.0\\WEF\\Developer";
const excelKey = "HKLM\\SOFTWARE\\Microsoft\\Windows\\CurrentVersion\\App Paths\\excel.exe";

function onWindows({ manifest, workbook, id }: SideloadPlace): Sideload {
  return {
    present: { run: "reg", args: ["query", excelKey] },
    add: { run: "reg", args: ["add", developerKey, "/v", id, "/t", "REG_SZ", "/d", manifest, "/f"] },
    open: { run: "explorer", args: [win32.normalize(workbook)] },
    take: { run: "reg", args: ["delete", developerKey, "/v", id, "/f"] },
  };
}

const macFolder = "Library/Containers/com.microsoft.Excel/Data/Documents/wef";

function onMac({ home, manifest, workbook, id }: SideloadPlace): Sideload {
  const copy = posix.join(home, macFolder, `${id}.manifest.xml`);
  return {
    present: { run: "open", args: ["-Ra", "Microsoft Excel"] },
    add: { copy: manifest, to: copy },
    open: { run: "open", args: ["-a", "Microsoft Excel", workbook] },
    take: { remove: copy },
  };
}
