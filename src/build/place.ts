import { homedir } from "node:os";
import { fileURLToPath } from "node:url";
import { development } from "./release.js";
import type { SideloadPlace } from "./sideload.js";

const path = (name: string): string => fileURLToPath(new URL(`../../${name}`, import.meta.url));

/** Of this computer and this clone. */
export const place: SideloadPlace = {
  home: homedir(),
  manifest: path("manifest.xml"),
  workbook: path("dist/season-in-excel.xlsx"),
  id: development.id,
};
