import webpack, { type Configuration } from "webpack";

/**
 * Writes the bundles.
 *
 * @throws what webpack found wrong
 */
export function bundle(configurations: Configuration[]): Promise<void> {
  const compiler = webpack(configurations);
  return new Promise((resolve, reject) => {
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
