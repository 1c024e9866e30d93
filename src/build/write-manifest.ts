// Writes the manifest.xml in the repository, the one for development: npm run manifest
import { writeFile } from "node:fs/promises";
import { version } from "../../package.json";
import { manifest } from "./manifest.js";
import { development } from "./release.js";

await writeFile(new URL("../../manifest.xml", import.meta.url), manifest(development, version));
