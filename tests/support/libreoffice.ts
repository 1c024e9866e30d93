import { execFile } from "node:child_process";
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { promisify } from "node:util";
import { libreOffice } from "./tools.js";

/** Makes LibreOffice calculate every formula of an .xlsx anew when it opens one. */
const ALWAYS_RECALCULATE = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`;

/** There are formulas that it never comes to an end with, such as EOMONTH of the year five million. */
const TIME_LIMIT_MS = 60_000;

/** A workbook as LibreOffice, an independent spreadsheet, opens it and writes it out again. */
export async function convert(
  bytes: Uint8Array,
  extension: string,
  recalculates = false,
): Promise<Uint8Array> {
  const folder = await mkdtemp(join(tmpdir(), "second-opinion-"));
  try {
    const input = join(folder, "in.xlsx");
    const profile = join(folder, "profile");
    await writeFile(input, bytes);
    if (recalculates) {
      await mkdir(join(profile, "user"), { recursive: true });
      await writeFile(join(profile, "user", "registrymodifications.xcu"), ALWAYS_RECALCULATE);
    }
    const environment = `-env:UserInstallation=${pathToFileURL(profile).href}`;
    const out = join(folder, "out");
    const args = [environment, "--headless", "--convert-to", extension, "--outdir", out, input];
    await promisify(execFile)(libreOffice.path ?? "soffice", args, {
      timeout: TIME_LIMIT_MS,
      killSignal: "SIGKILL",
    });
    return new Uint8Array(await readFile(join(out, `in.${extension}`)));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
