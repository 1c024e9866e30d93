import { unzipSync } from "fflate";

// Changes single fields of a zip file, to see that a reader notices.

/** Offsets in a directory entry; in the header before a part's data each lies two bytes nearer to the start. */
const offsets = { flags: 8, method: 10, crc: 16, packed: 20, unpacked: 24 } as const;
const wide = new Set(["crc", "packed", "unpacked"]);

/** Offset of a part's entry in the directory of a zip file without comment and zip64. */
function entryAt(bytes: Uint8Array, name: string): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  let at = view.getUint32(bytes.length - 6, true);
  for (let left = view.getUint16(bytes.length - 12, true); left > 0; left--) {
    const length = view.getUint16(at + 28, true);
    if (new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + length)) === name) return at;
    at += 46 + length + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  throw new Error(`no entry ${name}`);
}

export const spoilEntry = {
  /** Sets a field of the part's directory entry, and also in the header before its data unless told otherwise. */
  field(
    bytes: Uint8Array,
    name: string,
    field: keyof typeof offsets,
    value: number,
    { header = true } = {},
  ): Uint8Array {
    const spoiled = bytes.slice();
    const view = new DataView(spoiled.buffer);
    const entry = entryAt(spoiled, name);
    const places = [entry + offsets[field]];
    if (header) places.push(view.getUint32(entry + 42, true) + offsets[field] - 2);
    for (const at of places) {
      if (wide.has(field)) view.setUint32(at, value, true);
      else view.setUint16(at, value, true);
    }
    return spoiled;
  },

  /** Gives the part's directory entry another name of the same length. */
  rename(bytes: Uint8Array, name: string, other: string): Uint8Array {
    const spoiled = bytes.slice();
    spoiled.set(new TextEncoder().encode(other), entryAt(spoiled, name) + 46);
    return spoiled;
  },

  /** Flips bits of one byte of the part's packed data. */
  data(bytes: Uint8Array, name: string, index: number): Uint8Array {
    const spoiled = bytes.slice();
    const view = new DataView(spoiled.buffer);
    const local = view.getUint32(entryAt(spoiled, name) + 42, true);
    const at = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true) + index;
    spoiled[at] = (spoiled[at] ?? 0) ^ 0x2a;
    return spoiled;
  },

  /** A part's data, read by fflate alone. */
  read(bytes: Uint8Array, name: string): Uint8Array | undefined {
    return unzipSync(bytes)[name];
  },
};
