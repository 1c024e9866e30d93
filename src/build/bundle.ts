import webpack, { type Configuration, type Module, type MultiStats } from "webpack";

/**
 * Writes the bundles.
 *
 * @returns the files that are in them, of ours and of others
 * @throws what webpack found wrong
 */
export function bundle(configurations: Configuration[]): Promise<ReadonlySet<string>> {
  const compiler = webpack(configurations);
  return new Promise((resolve, reject) => {
    compiler.run((error, stats) => {
      if (error) reject(error);
      else if (stats?.hasErrors()) reject(new Error(stats.toString("errors-only")));
      else
        compiler.close(() => {
          resolve(filesOf(stats));
        });
    });
  });
}

function filesOf(stats: MultiStats | undefined): ReadonlySet<string> {
  const modules = stats?.stats.flatMap(({ compilation }) => [...compilation.modules]) ?? [];
  // Modules that were joined into one are told by it.
  const all = modules.flatMap((module) => ("modules" in module ? (module.modules as Module[]) : [module]));
  return new Set(all.flatMap((module) => module.nameForCondition() ?? []));
}
