import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { get } from "node:https";
import { createServer, type AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import type WebpackDevServer from "webpack-dev-server";
import { untrustedCertificates, type Certificates } from "../../src/build/certificates.js";
import { stillServes } from "../../src/build/running.js";
import { serve } from "../../src/build/server.js";

/** Bundles are served as the build left them: making them once more would take its time. */
const nothingToFollow = [{ mode: "none", entry: {} }] as const;

let folder: string;
let certificates: Certificates;
let server: WebpackDevServer;
let port: number;

async function freePort(): Promise<number> {
  const trial = createServer();
  await new Promise<void>((resolve) => trial.listen(0, "localhost", resolve));
  const { port: free } = trial.address() as AddressInfo;
  await new Promise((resolve) => trial.close(resolve));
  return free;
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "certificates-"));
  vi.spyOn(console, "log").mockReturnValue(undefined); // the maker of certificates tells of them
  certificates = await untrustedCertificates(folder);
  port = await freePort();
  server = await serve(port, certificates, nothingToFollow);
}, 60_000); // primes are found by luck

afterAll(async () => {
  await server.stop();
  await rm(folder, { recursive: true });
});

/** What the server answers to someone who trusts its certificate and no other. */
function ask(path: string): Promise<{ status: number; type: string; allows: string; body: string }> {
  return new Promise((resolve, reject) => {
    get({ host: "localhost", port, path, ca: certificates.ca }, (answer) => {
      let body = "";
      answer.setEncoding("utf8").on("data", (text: string) => (body += text));
      answer.on("end", () => {
        resolve({
          status: answer.statusCode ?? 0,
          type: answer.headers["content-type"] ?? "",
          allows: answer.headers["access-control-allow-origin"] ?? "",
          body,
        });
      });
    }).on("error", reject);
  });
}

test("everything that Excel loads is served over https, to pages of any origin", async () => {
  for (const [path, type] of [
    ["/taskpane.html", "text/html"],
    ["/functions.js", "javascript"],
    ["/functions.json", "application/json"],
    ["/pane.js", "javascript"],
    ["/help/index.html", "text/html"],
    ["/icons/icon-32.png", "image/png"],
    ["/office/office.js", "javascript"],
    ["/office/en-us/office_strings.js", "javascript"],
  ] as const) {
    const answer = await ask(path);
    expect([path, answer.status, answer.allows]).toEqual([path, 200, "*"]);
    expect(answer.type).toContain(type);
  }
  expect((await ask("/functions.js")).body).toContain("CustomFunctions.associate");
});

test("what is not for Excel stays out of reach", async () => {
  for (const path of ["/localhost.key", "/package.json", "/nothing.html"])
    expect((await ask(path)).status).toBe(404);
});

test("a server is known by its process", async () => {
  const running = { port, sideloaded: false };
  expect(await stillServes({ ...running, pid: process.pid })).toBe(true);
  expect(await stillServes({ ...running, pid: process.pid + 1 })).toBe(false);
  expect(await stillServes({ pid: process.pid, sideloaded: false, port: await freePort() })).toBe(false);
});

test("a taken port is refused with a sentence", async () => {
  await expect(serve(port, certificates, nothingToFollow)).rejects.toThrow(`Port ${port} of this computer`);
});

test("certificates are kept while they last, and made anew when one is damaged or lost", async () => {
  expect((await untrustedCertificates(folder)).cert).toEqual(certificates.cert);
  const again = await mkdtemp(join(tmpdir(), "certificates-"));
  await writeFile(join(again, "ca.crt"), certificates.ca);
  const fresh = await untrustedCertificates(again);
  expect(fresh.ca).not.toEqual(certificates.ca);
  expect(fresh.key).toEqual(await readFile(join(again, "localhost.key")));
  await rm(again, { recursive: true });
});
