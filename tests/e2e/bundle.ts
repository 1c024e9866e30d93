import { fileURLToPath } from "node:url";
import { bundle } from "../../src/build/bundle.js";
import { pane } from "../../webpack.config.js";

const folder = fileURLToPath(new URL("../../dist/test/", import.meta.url));

/** Makes `dist/test/x.js` of `x.ts` in this folder, by the settings of the pane that ships, but not made small. */
export async function bundleForTests(name: string): Promise<void> {
  await bundle([
    {
      ...pane,
      entry: fileURLToPath(new URL(`${name}.ts`, import.meta.url)),
      output: { path: folder, filename: `${name}.js` },
      optimization: { minimize: false },
    },
  ]);
}
