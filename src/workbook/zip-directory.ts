import { strFromU8 } from "fflate";
import { WorkbookError } from "./error.js";

// fflate unpacks and packs, but hides three things of a zip directory that we must know before trusting a file:
// whether an entry is encrypted, its checksum, and where its packed bytes lie (so that unpacking can stop early).

/** One entry of the zip directory. */
export interface ZipEntry {
  readonly name: string;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  readonly encrypted: boolean;
  readonly crc: number;
  /** Bytes it unpacks to, as declared. */
  readonly unpacked: number;
  readonly packed: Uint8Array;
  readonly modified: Date;
}

const endSignature = 0x06054b50;
const end64Signature = 0x06064b50;
const locator64Signature = 0x07064b50;
const entrySignature = 0x02014b50;
const localSignature = 0x04034b50;
const endLength = 22;
const commentMax = 0xffff;
const inExtra = 0xffffffff; // a 32-bit field with this value has its number in the zip64 extra field

const broken = () => new WorkbookError("is damaged: the zip directory is broken");

/**
 * Entries of a zip file, in directory order.
 *
 * @throws WorkbookError when the directory is missing or broken, or an entry is cut short
 */
export function readZipDirectory(bytes: Uint8Array): ZipEntry[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    const entries: ZipEntry[] = [];
    let { at, count } = findDirectory(view);
    for (; count > 0; count--) {
      if (view.getUint32(at, true) !== entrySignature) throw broken();
      const nameLength = view.getUint16(at + 28, true);
      const extraLength = view.getUint16(at + 30, true);
      entries.push(readEntry(view, at, at + 46 + nameLength, extraLength));
      at += 46 + nameLength + extraLength + view.getUint16(at + 32, true);
    }
    return entries;
  } catch (e) {
    if (e instanceof RangeError) throw broken(); // a field beyond the end of the file
    throw e;
  }
}

function findDirectory(view: DataView): { at: number; count: number } {
  let end = view.byteLength - endLength;
  const last = Math.max(0, end - commentMax);
  while (end >= last && !isEnd(view, end)) end--;
  if (end < last) {
    throw new WorkbookError("is damaged: the zip directory is missing (download cut short?)");
  }
  const locator = end - 20;
  if (locator >= 0 && view.getUint32(locator, true) === locator64Signature) {
    const end64 = readUint64(view, locator + 8);
    if (view.getUint32(end64, true) !== end64Signature) throw broken();
    return { count: readUint64(view, end64 + 32), at: readUint64(view, end64 + 48) };
  }
  return { count: view.getUint16(end + 10, true), at: view.getUint32(end + 16, true) };
}

/** The end record: its signature, and a comment that fits behind it. A comment may hold the signature too. */
function isEnd(view: DataView, at: number): boolean {
  return (
    view.getUint32(at, true) === endSignature &&
    at + endLength + view.getUint16(at + endLength - 2, true) <= view.byteLength
  );
}

function readEntry(view: DataView, at: number, extraAt: number, extraLength: number): ZipEntry {
  const flags = view.getUint16(at + 8, true);
  const nameBytes = slice(view, at + 46, extraAt - at - 46);
  const name = strFromU8(nameBytes, (flags & 0x800) === 0);
  let unpacked = view.getUint32(at + 24, true);
  let size = view.getUint32(at + 20, true);
  let local = view.getUint32(at + 42, true);
  let wide = findZip64(view, extraAt, extraLength);
  const widen = (value: number) => {
    if (value !== inExtra || wide === undefined) return value;
    wide += 8;
    return readUint64(view, wide - 8);
  };
  // The extra field lists only the numbers that did not fit, in this order.
  unpacked = widen(unpacked);
  size = widen(size);
  local = widen(local);
  if (view.getUint32(local, true) !== localSignature) throw broken();
  const data = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
  if (data + size > view.byteLength) throw new WorkbookError(`is damaged: ${name} is cut short`);
  return {
    name,
    method: view.getUint16(at + 10, true),
    encrypted: (flags & 1) !== 0,
    crc: view.getUint32(at + 16, true),
    unpacked,
    packed: slice(view, data, size),
    modified: dosTime(view.getUint16(at + 14, true), view.getUint16(at + 12, true)),
  };
}

function findZip64(view: DataView, from: number, length: number): number | undefined {
  for (let at = from; at + 4 <= from + length; at += 4 + view.getUint16(at + 2, true)) {
    if (view.getUint16(at, true) === 1) return at + 4;
  }
  return undefined;
}

function readUint64(view: DataView, at: number): number {
  return view.getUint32(at, true) + view.getUint32(at + 4, true) * 0x1_0000_0000;
}

function slice(view: DataView, at: number, length: number): Uint8Array {
  if (at + length > view.byteLength) throw broken();
  return new Uint8Array(view.buffer, view.byteOffset + at, length);
}

/** Local time, as zip files have it; a date that fflate could not write back becomes the first of 1980. */
function dosTime(date: number, time: number): Date {
  const year = 1980 + (date >> 9);
  const month = ((date >> 5) & 15) - 1;
  const day = date & 31;
  if (month < 0 || day < 1 || year > 2099) return new Date(1980, 0, 1);
  return new Date(year, month, day, time >> 11, (time >> 5) & 63, (time & 31) * 2);
}
