// What "npm run excel" has started, recorded for "npm run excel:stop".
import { mkdir, readFile, rm, writeFile } from "node:fs/promises";
import { request } from "node:https";
import { z } from "zod";

/** Identifies the process in every answer of the server, so that only a server of ours is ever stopped. */
export const processHeader = "X-Gylesheet-Process";

const file = new URL("../../node_modules/.cache/gylesheet/excel.json", import.meta.url);

const record = z.object({
  pid: z.number().int(),
  port: z.number().int(),
  /** Whether the add-in is registered with Excel. */
  sideloaded: z.boolean(),
});

export type Running = z.infer<typeof record>;

export async function remember(running: Running): Promise<void> {
  await mkdir(new URL(".", file), { recursive: true });
  await writeFile(file, JSON.stringify(running));
}

/** What was started last and not stopped, if anything. */
export async function remembered(): Promise<Running | undefined> {
  try {
    return record.parse(JSON.parse(await readFile(file, "utf8")));
  } catch {
    return undefined; // missing, or without anything to stop
  }
}

export async function forget(): Promise<void> {
  await rm(file, { force: true });
}

/** Whether the recorded server still answers: another process may have got its number since. */
export function stillServes({ pid, port }: Running): Promise<boolean> {
  return new Promise((resolve) => {
    const ask = request(
      // Only its name is wanted; nothing is sent to it.
      {
        host: "localhost",
        port,
        path: "/manifest.xml",
        method: "HEAD",
        rejectUnauthorized: false,
        timeout: 3000,
      },
      (answer) => {
        answer.resume();
        resolve(answer.headers[processHeader.toLowerCase()] === String(pid));
      },
    );
    ask.on("timeout", () => ask.destroy());
    ask.on("error", () => {
      resolve(false);
    });
    ask.end();
  });
}
