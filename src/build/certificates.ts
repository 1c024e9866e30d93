// The certificate with which this computer serves the add-in to itself: Excel accepts only https.
import { X509Certificate } from "node:crypto";
import { existsSync } from "node:fs";
import { readFile, rm } from "node:fs/promises";
import { homedir } from "node:os";
import { join } from "node:path";
import { generateCertificates, getHttpsServerOptions } from "office-addin-dev-certs";

export interface Certificates {
  readonly ca: Buffer;
  readonly cert: Buffer;
  readonly key: Buffer;
}

const DAYS = 30;
const dayMs = 86_400_000;

/**
 * Where certificates are kept on this computer: the place that Microsoft's own tools use, out of reach of any server.
 */
export const certificateFolder = join(homedir(), ".office-addin-dev-certs");

/** The certificate that a browser has to trust. */
export const authorityFile = (folder: string): string => join(folder, "ca.crt");

/**
 * Certificates for localhost. On Windows and Mac the system is told to trust them, and may ask for consent. On Linux
 * there is no Excel, only browsers, each with a trust list of its own: the files are created, and nothing is told to
 * trust them.
 */
export function certificates(platform: NodeJS.Platform): Promise<Certificates> {
  return platform === "win32" || platform === "darwin"
    ? getHttpsServerOptions()
    : untrustedCertificates(certificateFolder);
}

/** Certificates in a folder; created anew if they are missing or about to expire. */
export async function untrustedCertificates(folder: string): Promise<Certificates> {
  const ca = authorityFile(folder);
  const cert = join(folder, "localhost.crt");
  const key = join(folder, "localhost.key");
  if (!(await lasts(ca)) || !(await lasts(cert)) || !existsSync(key)) {
    // The library would keep existing files, expired or not.
    for (const file of [ca, cert, key]) await rm(file, { force: true });
    await generateCertificates(ca, cert, key, DAYS, ["localhost", "127.0.0.1"]);
  }
  return { ca: await readFile(ca), cert: await readFile(cert), key: await readFile(key) };
}

async function lasts(file: string): Promise<boolean> {
  if (!existsSync(file)) return false;
  return Date.parse(new X509Certificate(await readFile(file)).validTo) > Date.now() + dayMs;
}
