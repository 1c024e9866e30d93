import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import webpack from "webpack";
import configuration from "../../webpack.config.js";

const folder = fileURLToPath(new URL("../../dist/test/", import.meta.url));

/** A script for a page, made of a file in this folder by the settings of the bundles that ship, but not made small. */
export async function bundleOf(file: string): Promise<string> {
  const [settings] = configuration;
  const compiler = webpack({
    ...settings,
    entry: fileURLToPath(new URL(file, import.meta.url)),
    output: { path: folder, filename: `${file}.js` },
    optimization: { minimize: false },
  });
  await new Promise<void>((resolve, reject) => {
    compiler.run((error, stats) => {
      if (error) reject(error);
      else if (stats?.hasErrors()) reject(new Error(stats.toString("errors-only")));
      else
        compiler.close(() => {
          resolve();
        });
    });
  });
  return readFile(`${folder}${file}.js`, "utf8");
}
