// Serves the add-in from this computer, and rebuilds bundles whenever their sources change.
import { once } from "node:events";
import { createServer } from "node:net";
import { fileURLToPath } from "node:url";
import webpack, { type Configuration } from "webpack";
import WebpackDevServer from "webpack-dev-server";
import type { Certificates } from "./certificates.js";
import { processHeader } from "./running.js";

const folder = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

// webpack-dev-server reports a taken port as an event that nobody can catch.
async function checkFree(port: number): Promise<void> {
  const trial = createServer().listen(port, "localhost");
  try {
    await once(trial, "listening");
  } catch (cause) {
    throw new Error(
      `Port ${port} of this computer, which manifest.xml names, is taken. Stop the program that has it.`,
      { cause },
    );
  }
  trial.close();
  await once(trial, "close");
}

/**
 * Starts serving dist/ and office.js.
 *
 * @param certificates for localhost
 * @param configurations of the bundles to rebuild; other files are served as built
 * @returns when the bundles are available
 * @throws if the port is taken
 */
export async function serve(
  port: number,
  certificates: Certificates,
  configurations: readonly Configuration[],
): Promise<WebpackDevServer> {
  await checkFree(port);
  const compiler = webpack(
    configurations.map((each) => ({ ...each, infrastructureLogging: { level: "warn" as const } })),
  );
  const server = new WebpackDevServer(
    {
      host: "localhost",
      port,
      server: { type: "https", options: { ...certificates } },
      // Excel on the web fetches the functions' metadata from a page of its own.
      headers: { "Access-Control-Allow-Origin": "*", [processHeader]: String(process.pid) },
      static: [
        { directory: folder("dist"), watch: false },
        { directory: folder("node_modules/@microsoft/office-js/dist"), publicPath: "/office", watch: false },
      ],
      // Nothing of the server's own goes into the page: its policy lets no connection out, and Excel keeps old code
      // until it is closed anyway.
      client: false,
      hot: false,
      liveReload: false,
      webSocketServer: false,
      setupExitSignals: false,
      devMiddleware: { stats: "errors-warnings" },
    },
    compiler,
  );
  await server.start();
  await new Promise<void>((resolve) => {
    server.middleware?.waitUntilValid(() => {
      resolve();
    });
  });
  return server;
}
