import { Zip, ZipDeflate } from "fflate";
import type { Parts } from "./build-workbook.js";

// The same parts in other forms of zip file that programs write.

/** As a program that streams writes it: sizes only behind the data and in the directory. */
export function streamedZip(parts: Parts): Uint8Array {
  const chunks: Uint8Array[] = [];
  const zip = new Zip((error, chunk) => {
    if (error) throw error;
    chunks.push(chunk);
  });
  for (const [name, data] of Object.entries(parts)) {
    const file = new ZipDeflate(name);
    zip.add(file);
    file.push(typeof data === "string" ? new TextEncoder().encode(data) : data, true);
  }
  zip.end();
  return joined(chunks);
}

/** With all sizes and places in the 64-bit fields, as if the file were larger than 4 GB. */
export function zip64(bytes: Uint8Array): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const start = view.getUint32(bytes.length - 6, true);
  const count = view.getUint16(bytes.length - 12, true);
  const chunks = [bytes.subarray(0, start)];
  let at = start;
  for (let i = 0; i < count; i++) {
    const nameLength = view.getUint16(at + 28, true);
    const entry = bytes.slice(at, at + 46 + nameLength);
    const wide = new Uint8Array(28 + 8);
    const extra = new DataView(wide.buffer);
    extra.setUint32(0, 0x0004_cafe, true); // some other field of 4 bytes comes first
    extra.setUint16(8, 1, true);
    extra.setUint16(10, 24, true);
    for (const [field, place] of [
      [24, 12],
      [20, 20],
      [42, 28],
    ] as const) {
      extra.setUint32(place, view.getUint32(at + field, true), true);
      new DataView(entry.buffer).setUint32(field, 0xffffffff, true);
    }
    new DataView(entry.buffer).setUint16(30, wide.length, true);
    chunks.push(entry, wide);
    at += 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  const size = joined(chunks).length;
  const end = new Uint8Array(56 + 20 + 22);
  const fields = new DataView(end.buffer);
  fields.setUint32(0, 0x06064b50, true);
  fields.setUint32(4, 44, true);
  fields.setUint32(24, count, true);
  fields.setUint32(32, count, true);
  fields.setUint32(40, size - start, true);
  fields.setUint32(48, start, true);
  fields.setUint32(56, 0x07064b50, true);
  fields.setUint32(64, size, true);
  fields.setUint32(72, 1, true);
  fields.setUint32(76, 0x06054b50, true);
  for (const place of [84, 86]) fields.setUint16(place, 0xffff, true);
  for (const place of [88, 92]) fields.setUint32(place, 0xffffffff, true);
  return joined([...chunks, end]);
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(chunks.reduce((length, chunk) => length + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}
