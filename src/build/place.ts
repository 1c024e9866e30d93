import { homedir } from "node:os";
import { fileURLToPath } from "node:url";
import { development } from "./release.js";
import type { Place } from "./sideload.js";

const path = (name: string): string => fileURLToPath(new URL(`../../${name}`, import.meta.url));

/** Of this computer and this clone. */
export const place: Place = {
  home: homedir(),
  manifest: path("manifest.xml"),
  workbook: path("dist/season-in-excel.xlsx"),
  id: development.id,
};
