import { Inflate, ZipPassThrough, zipSync, type Zippable } from "fflate";
import { WorkbookError } from "./error.js";
import { deflateRatio, inflateSlice, ratioAppliesFrom, ratioLimit, unpackedLimit } from "./limits.js";
import { readZipDirectory, type ZipEntry } from "./zip-directory.js";

/** One file inside the zip file. */
export interface Part {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Kept without compression in the original. */
  readonly stored: boolean;
  readonly modified: Date;
}

const stored = 0;
const deflated = 8;

/**
 * All parts of a zip file, in directory order, checked for size and by checksum.
 *
 * @throws WorkbookError when the file is damaged, encrypted, or would unpack to more than the limits allow
 */
export function unzip(bytes: Uint8Array): Part[] {
  const entries = readZipDirectory(bytes);
  checkNames(entries);
  checkSizes(entries, bytes.length);
  return entries.map((entry) => ({
    name: entry.name,
    bytes: unpack(entry),
    stored: entry.method === stored,
    modified: entry.modified,
  }));
}

/** A zip file of these parts, in this order. The same parts give the same bytes. */
export function zip(parts: readonly Part[]): Uint8Array {
  const files: Zippable = {};
  for (const part of parts) {
    files[part.name] = [part.bytes, { level: part.stored ? 0 : 6, mtime: part.modified }];
  }
  return zipSync(files);
}

function checkNames(entries: readonly ZipEntry[]): void {
  const seen = new Set<string>();
  for (const { name } of entries) {
    const folded = name.toLowerCase(); // part names differ in more than case
    if (seen.has(folded)) throw new WorkbookError(`is damaged: it holds ${name} twice`);
    seen.add(folded);
    // fflate writes from a plain object, in which such keys do not keep their place.
    if (name === "" || name === "__proto__" || String(Number(name) >>> 0) === name) {
      throw new WorkbookError(`is not an .xlsx workbook: it holds a part named "${name}"`);
    }
  }
}

function checkSizes(entries: readonly ZipEntry[], fileSize: number): void {
  let total = 0;
  for (const entry of entries) {
    if (entry.encrypted) throw new WorkbookError(`is encrypted (${entry.name}); save it without a password`);
    if (entry.method !== stored && entry.method !== deflated) {
      throw new WorkbookError(`packs ${entry.name} by method ${entry.method}, which workbooks do not use`);
    }
    const { length } = entry.packed;
    const possible =
      entry.method === stored ? entry.unpacked === length : entry.unpacked <= length * deflateRatio;
    if (!possible) throw wrongSize(entry);
    total += entry.unpacked;
  }
  if (total > unpackedLimit) {
    throw new WorkbookError(`unpacks to more than ${unpackedLimit / 1024 / 1024} MB; refused`);
  }
  if (total > ratioAppliesFrom && total > fileSize * ratioLimit) {
    throw new WorkbookError(`unpacks to more than ${ratioLimit} times its size; refused`);
  }
}

function unpack(entry: ZipEntry): Uint8Array {
  const bytes = entry.method === stored ? entry.packed.slice() : inflate(entry);
  if (checksum(bytes) !== entry.crc) {
    throw new WorkbookError(`is damaged: ${entry.name} does not match its checksum`);
  }
  return bytes;
}

function inflate(entry: ZipEntry): Uint8Array {
  const { packed } = entry;
  const bytes = new Uint8Array(entry.unpacked);
  let filled = 0;
  const stream = new Inflate((chunk) => {
    if (filled + chunk.length > bytes.length) throw wrongSize(entry);
    bytes.set(chunk, filled);
    filled += chunk.length;
  });
  try {
    for (let at = 0; at < packed.length; at += inflateSlice) {
      stream.push(packed.subarray(at, at + inflateSlice), at + inflateSlice >= packed.length);
    }
  } catch (e) {
    if (e instanceof WorkbookError) throw e;
    throw new WorkbookError(`is damaged: ${entry.name} cannot be unpacked`, { cause: e });
  }
  if (filled !== bytes.length) throw wrongSize(entry);
  return bytes;
}

function wrongSize(entry: ZipEntry): WorkbookError {
  return new WorkbookError(`is damaged: ${entry.name} is not as large as the zip directory says`);
}

function checksum(bytes: Uint8Array): number {
  const pass = new ZipPassThrough("");
  pass.ondata = () => undefined; // only its running CRC-32 is wanted
  pass.push(bytes, true);
  return pass.crc >>> 0;
}
