import { deflateSync } from "fflate";
import { describe, expect, test } from "vitest";
import { WorkbookError } from "../../../src/workbook/error.js";
import { ratioAppliesFrom, ratioLimit, unpackedLimit } from "../../../src/workbook/limits.js";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { bookOf, zipParts } from "../../support/build-workbook.js";
import { goodParts, noise, oneCell, refusal } from "../../support/refusal.js";
import { spoilEntry } from "../../support/spoil-zip.js";

describe("a damaged zip file is refused", () => {
  test("when its end is missing", async () => {
    const whole = bookOf(oneCell);
    expect(await refusal(whole.slice(0, whole.length - 40))).toBe(
      "is damaged: its zip directory cannot be read (download cut short?)",
    );
    expect(await refusal(whole.slice(0, 10))).toBe(
      "is damaged: its zip directory cannot be read (download cut short?)",
    );
  });

  test("when its beginning is missing", async () => {
    const whole = bookOf(oneCell);
    const cut = new Uint8Array([0x50, 0x4b, ...whole.slice(600)]);
    expect(await refusal(cut)).toMatch(/^is damaged: /);
  });

  test("when any single byte of its directory is changed, it is refused or read the same", async () => {
    const whole = bookOf(oneCell);
    const { model } = await openWorkbook(whole);
    const directory = new DataView(whole.buffer).getUint32(whole.length - 6, true);
    for (let at = directory; at < whole.length; at++) {
      const spoiled = whole.slice();
      spoiled[at] = (spoiled[at] ?? 0) ^ 0x41;
      try {
        expect((await openWorkbook(spoiled)).model).toEqual(model);
      } catch (e) {
        if (!(e instanceof WorkbookError)) throw e;
      }
    }
  });

  test("when packed data is changed", async () => {
    for (const flip of [0, 5, 40, 100]) {
      const spoiled = spoilEntry.data(bookOf(oneCell), "xl/workbook.xml", flip);
      expect(await refusal(spoiled)).toMatch(
        /^is damaged: xl\/workbook\.xml (cannot be unpacked|does not match|is not as large)/,
      );
    }
  });

  test("when data unpacks, but to something else than was packed", async () => {
    const spoiled = spoilEntry.field(bookOf(oneCell), "xl/workbook.xml", "crc", 20260105);
    expect(await refusal(spoiled)).toBe("is damaged: xl/workbook.xml does not match its checksum");
  });

  test("when the directory and the header before the data differ", async () => {
    for (const field of ["crc", "packed", "unpacked", "method"] as const) {
      const spoiled = spoilEntry.field(bookOf(oneCell), "xl/workbook.xml", field, 0, { header: false });
      expect(await refusal(spoiled)).toMatch(/^is damaged: xl\/workbook\.xml /);
    }
  });

  test("when an entry reaches beyond the end of the file", async () => {
    const spoiled = spoilEntry.field(bookOf(oneCell), "xl/workbook.xml", "packed", 100_000);
    expect(await refusal(spoiled)).toBe("is damaged: xl/workbook.xml reaches beyond the end of the file");
  });

  test("when it holds a part twice, in whatever case", async () => {
    const twice = spoilEntry.rename(
      zipParts(goodParts({ "xl/workbooK.xm_": "x" })),
      "xl/workbooK.xm_",
      "xl/workbooK.xml",
    );
    expect(await refusal(twice)).toBe("is damaged: it holds xl/workbooK.xml twice");
  });

  test("when an entry is encrypted", async () => {
    const spoiled = spoilEntry.field(bookOf(oneCell), "xl/workbook.xml", "flags", 1);
    expect(await refusal(spoiled)).toBe("is encrypted (xl/workbook.xml); save it without a password");
  });

  test("when an entry is packed by another method", async () => {
    const spoiled = spoilEntry.field(bookOf(oneCell), "xl/workbook.xml", "method", 14);
    expect(await refusal(spoiled)).toBe("packs xl/workbook.xml by method 14, which workbooks do not use");
  });
});

describe("a zip bomb is refused before it fills memory", () => {
  const bufferBytes = () => process.memoryUsage().arrayBuffers;
  const megabyte = 1024 * 1024;
  const bomb = zipParts(goodParts({ "xl/media/image1.bin": new Uint8Array(90 * megabyte) }));
  const spoiled = spoilEntry.field(bomb, "xl/media/image1.bin", "unpacked", 1000);

  test("when it declares more than the limit", async () => {
    const large = zipParts(goodParts({ "xl/media/image1.bin": noise(600_000) }));
    const declared = spoilEntry.field(large, "xl/media/image1.bin", "unpacked", unpackedLimit);
    const before = bufferBytes();
    expect(await refusal(declared)).toBe("unpacks to more than 512 MB; refused");
    expect(bufferBytes() - before).toBeLessThan(10 * megabyte);
  });

  test("when a part unpacks to more than it declares", async () => {
    const before = bufferBytes();
    expect(await refusal(spoiled)).toBe(
      "is damaged: xl/media/image1.bin is not as large as the zip directory says",
    );
    expect(bufferBytes() - before).toBeLessThan(60 * megabyte);
  });

  test("when a part declares more than deflate could ever hold, or more than it unpacks to", async () => {
    const declared = (size: number) => spoilEntry.field(bookOf(oneCell), "xl/workbook.xml", "unpacked", size);
    expect(await refusal(declared(400 * megabyte))).toBe(
      "is damaged: xl/workbook.xml is not as large as the zip directory says",
    );
    expect(await refusal(declared(5000))).toBe("is damaged: xl/workbook.xml does not match its checksum");
  });

  test("when it unpacks to very many times its size, but not when that is small", async () => {
    const large = zipParts(goodParts({ "xl/media/image1.bin": new Uint8Array(ratioAppliesFrom) }));
    expect(large.length * ratioLimit).toBeLessThan(ratioAppliesFrom);
    expect(await refusal(large)).toBe("unpacks to more than 400 times its size; refused");
    const small = zipParts(goodParts({ "xl/media/image1.bin": new Uint8Array(megabyte) }));
    await expect(openWorkbook(small)).resolves.toBeDefined();
  });

  test("the deflate limit that the guard relies on is a true one", () => {
    const zeros = new Uint8Array(10 * megabyte);
    expect(zeros.length / deflateSync(zeros, { level: 9 }).length).toBeLessThan(1032);
  });
});
