import webpack, { type Configuration, type Module, type MultiStats } from "webpack";

/**
 * Writes the bundles.
 *
 * @returns the files included, ours and others
 * @throws errors of webpack
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
  // Concatenated modules are listed by the module that replaces them.
  const all = modules.flatMap((module) => ("modules" in module ? (module.modules as Module[]) : [module]));
  return new Set(all.flatMap((module) => module.nameForCondition() ?? []));
}
