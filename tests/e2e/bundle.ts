import { fileURLToPath } from "node:url";
import webpack from "webpack";
import configuration from "../../webpack.config.js";

const folder = fileURLToPath(new URL("../../dist/test/", import.meta.url));

/** Makes `dist/test/x.js` of `x.ts` in this folder, by the settings of the bundles that ship, but not made small. */
export function bundleForTests(name: string): Promise<void> {
  const [settings] = configuration;
  const compiler = webpack({
    ...settings,
    entry: fileURLToPath(new URL(`${name}.ts`, import.meta.url)),
    output: { path: folder, filename: `${name}.js` },
    optimization: { minimize: false },
  });
  return new Promise<void>((resolve, reject) => {
    compiler.run((error, stats) => {
      if (error) reject(error);
      else if (stats?.hasErrors()) reject(new Error(stats.toString("errors-only")));
      else
        compiler.close(() => {
          resolve();
        });
    });
  });
}
