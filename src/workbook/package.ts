import { WorkbookError } from "./error.js";
import { textLimit } from "./limits.js";
import type { Part } from "./unzip.js";
import { decodeUtf8 } from "./xml-text.js";

/** Parts to look up by name. Names are compared without case, as the packaging rules have it. */
export interface PartSource {
  /** The part's name as it is spelled in the file. */
  find(name: string): string | undefined;
  /** @throws WorkbookError when the part is missing, too large or not UTF-8 */
  text(name: string): string;
  bytes(name: string): Uint8Array;
}

/** The parts of an opened file. */
export class Package implements PartSource {
  private readonly byName = new Map<string, Part>();

  constructor(readonly parts: readonly Part[]) {
    for (const part of parts) this.byName.set(part.name.toLowerCase(), part);
  }

  find(name: string): string | undefined {
    return this.byName.get(name.toLowerCase())?.name;
  }

  bytes(name: string): Uint8Array {
    const part = this.byName.get(name.toLowerCase());
    if (!part) throw new WorkbookError(`is damaged: ${name} is missing`);
    return part.bytes;
  }

  text(name: string): string {
    const bytes = this.bytes(name);
    if (bytes.length > textLimit) {
      throw new WorkbookError(`holds ${name} of more than ${textLimit / 1024 / 1024} MB; refused`);
    }
    return decodeUtf8(name, bytes);
  }
}
