// npm run docs: makes the blocks of README and DEVELOPERS anew.
import { writeFile } from "node:fs/promises";
import { documents, filled, root } from "./blocks.js";

for (const file of documents) await writeFile(new URL(file, root), filled(file));
