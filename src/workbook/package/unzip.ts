import {
  configure,
  ERR_AMBIGUOUS_ARCHIVE,
  ERR_ENTRY_DATA_OUT_OF_BOUNDS,
  ERR_INVALID_CRC32,
  ERR_INVALID_UNCOMPRESSED_SIZE,
  Uint8ArrayReader,
  Uint8ArrayWriter,
  ZipReader,
  ZipWriter,
  type Entry,
  type FileEntry,
  // Without a codec of its own: every engine that runs this has the streams of the web platform.
} from "@zip.js/zip.js/lib/zip-core-custom.js";
import { WorkbookError } from "../error.js";
import { deflateRatio, ratioAppliesFrom, ratioLimit, unpackedLimit } from "../limits.js";

// Workers would be scripts created at run time, which the content security policy of a page forbids.
configure({ useWebWorkers: false });

/** One file, or an explicit folder entry, in the zip file. */
export interface ZipPart {
  /** Folders separated by "/", without a leading one, whatever the zip directory has. */
  readonly name: string;
  /** The name in the zip directory, if different: it stays as it was. */
  readonly entry?: string;
  readonly bytes: Uint8Array;
  /** Stored without compression in the original. */
  readonly stored: boolean;
  readonly modified: Date;
}

const stored = 0;
const deflated = 8;

const wrongSize = "is not as large as the zip directory says";

/** Errors of the zip library, and our wording for them. */
const damages: Readonly<Record<string, string>> = {
  [ERR_INVALID_CRC32]: "does not match its checksum",
  [ERR_INVALID_UNCOMPRESSED_SIZE]: wrongSize,
  [ERR_ENTRY_DATA_OUT_OF_BOUNDS]: "reaches beyond the end of the file",
  [ERR_AMBIGUOUS_ARCHIVE]: "is described in two ways that differ",
};

/**
 * All parts of a zip file, in directory order, checked for size and by checksum.
 *
 * @throws WorkbookError if the file is damaged, encrypted, or would unpack to more than the limits allow
 */
export async function unzip(bytes: Uint8Array): Promise<ZipPart[]> {
  const entries = await readDirectory(bytes);
  checkNames(entries);
  checkSizes(entries, bytes.length);
  const parts: ZipPart[] = [];
  for (const entry of entries) {
    const name = partName(entry.filename);
    parts.push({
      name,
      ...(name !== entry.filename && { entry: entry.filename }),
      bytes: entry.directory || isNothing(entry) ? new Uint8Array() : await unpack(entry),
      stored: entry.compressionMethod === stored,
      modified: entry.lastModDate,
    });
  }
  return parts;
}

/** A zip file of these parts, in this order. Equal parts give equal bytes. */
export async function zip(parts: readonly ZipPart[]): Promise<Uint8Array> {
  const plain = { extendedTimestamp: false, dataDescriptor: false }; // supported by every reader of workbooks
  const writer = new ZipWriter(new Uint8ArrayWriter(), plain);
  for (const { name, entry = name, bytes, stored, modified } of parts) {
    const directory = entry.endsWith("/");
    await writer.add(entry, directory ? undefined : new Uint8ArrayReader(bytes), {
      directory,
      lastModDate: modified,
      ...(stored && { level: 0 }),
    });
  }
  return writer.close();
}

async function readDirectory(bytes: Uint8Array): Promise<Entry[]> {
  try {
    // Names are only looked up, never used as paths on a disk, so one that begins with "/" does no harm.
    return await new ZipReader(new Uint8ArrayReader(bytes)).getEntries({ filenameValidation: "tolerant" });
  } catch (cause) {
    throw new WorkbookError("is damaged: its zip directory cannot be read (download cut short?)", { cause });
  }
}

/** Some programs write Windows paths into the directory, and some begin at the root. */
const partName = (entry: string): string => entry.replaceAll("\\", "/").replace(/^(?:\.?\/)+/, "");

function checkNames(entries: readonly Entry[]): void {
  const seen = new Set<string>();
  for (const { filename } of entries) {
    const folded = partName(filename).toLowerCase(); // part names must differ in more than case
    if (seen.has(folded)) throw new WorkbookError(`is damaged: it holds ${filename} twice`);
    seen.add(folded);
  }
}

function checkSizes(entries: readonly Entry[], fileSize: number): void {
  let total = 0;
  for (const entry of entries) {
    const { filename, compressionMethod: method, compressedSize: packed, uncompressedSize: size } = entry;
    if (entry.encrypted) throw new WorkbookError(`is encrypted (${filename}); save it without a password`);
    if (method !== stored && method !== deflated) {
      throw new WorkbookError(`packs ${filename} by method ${method}, which workbooks do not use`);
    }
    if (method === stored ? size !== packed : size > packed * deflateRatio) {
      throw new WorkbookError(`is damaged: ${filename} ${wrongSize}`);
    }
    total += size;
  }
  if (total > unpackedLimit) {
    throw new WorkbookError(`unpacks to more than ${unpackedLimit / 1024 / 1024} MB; refused`);
  }
  if (total > ratioAppliesFrom && total > fileSize * ratioLimit) {
    throw new WorkbookError(`unpacks to more than ${ratioLimit} times its size; refused`);
  }
}

/** Some programs mark an empty part as compressed, but write no data for it at all. */
const isNothing = ({ compressedSize, uncompressedSize }: Entry): boolean =>
  compressedSize + uncompressedSize === 0;

/** Stops as soon as the declared size is exceeded. */
async function unpack(entry: FileEntry): Promise<Uint8Array> {
  try {
    return await entry.getData(new Uint8ArrayWriter(), { checkCrc32: true });
  } catch (cause) {
    const what = (cause instanceof Error && damages[cause.message]) || "cannot be unpacked";
    throw new WorkbookError(`is damaged: ${entry.filename} ${what}`, { cause });
  }
}
