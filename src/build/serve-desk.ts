// npm start: serves dist/desk/ on this computer. With --open it is shown in a browser.
import { spawn } from "node:child_process";
import { once } from "node:events";
import { createServer, type Server } from "node:http";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import sirv from "sirv";
import { examples } from "../desk/page/examples.js";

/** Any port will do; this one is free on most computers. */
const FIRST_PORT = 4173;
const PORTS = 20;

/** @returns a server of the built desk, on the first free port from the one given */
export async function serveDesk(
  first = FIRST_PORT,
): Promise<{ readonly server: Server; readonly port: number }> {
  const files = sirv(fileURLToPath(new URL("../../dist/desk", import.meta.url)), { dev: true });
  for (let port = first; ; port++) {
    const server = createServer((request, response) => {
      files(request, response, () => {
        response.writeHead(404).end();
      });
    }).listen(port, "localhost");
    try {
      await once(server, "listening");
      return { server, port };
    } catch (error) {
      const isTaken = error instanceof Error && "code" in error && error.code === "EADDRINUSE";
      if (!isTaken || port - first >= PORTS) throw error;
    }
  }
}

/** Command that opens an address, by system. */
const openers: Readonly<Partial<Record<NodeJS.Platform, readonly [string, ...string[]]>>> = {
  win32: ["cmd", "/c", "start", ""],
  darwin: ["open"],
};

function openBrowser(address: string): void {
  const [command, ...args] = openers[process.platform] ?? ["xdg-open"];
  spawn(command, [...args, address], { stdio: "ignore", detached: true })
    .on("error", () => {
      console.log(`No browser could be opened here. Open ${address} in one.`);
    })
    .unref();
}

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { open: { type: "boolean" }, port: { type: "string" } } });
  const { port } = await serveDesk(values.port === undefined ? undefined : Number(values.port));
  const address = `http://localhost:${port}/?file=${examples.season}`;
  console.log(`The desk is at ${address}

It shows a spreadsheet with Gylesheet's functions in its cells and the task pane beside it: the season of an invented
brewery, to look at and to change. http://localhost:${port}/ opens your own workbooks; they stay on this computer.

Without a browser, the same season as a table:
npm run recalc -- examples/season.xlsx --output dist/season.xlsx --table

Ctrl+C stops it.`);
  if (values.open) openBrowser(address);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await main();
