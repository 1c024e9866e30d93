import { describe, expect, test } from "vitest";
import { openWorkbook } from "../../../src/workbook/workbook.js";
import { contentTypesXml, zipParts } from "../../support/build-workbook.js";
import { compoundFile } from "../../support/compound-file.js";
import { goodParts, noise, refusal } from "../../support/refusal.js";
import { spoilEntry } from "../../support/spoil-zip.js";

const ascii = (text: string) => new TextEncoder().encode(text);

describe("a file that is no .xlsx workbook is refused by what it is", () => {
  test.each([
    [
      "a flat OpenDocument spreadsheet",
      '<?xml version="1.0"?>\n<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"/>',
      /\(\.fods\); open it .* save it as \.xlsx/,
    ],
    [
      "an XML spreadsheet of 2003",
      '<?xml version="1.0"?><?mso-application progid="Excel.Sheet"?><Workbook/>',
      /XML spreadsheet of 2003; open it .* save it as \.xlsx/,
    ],
    [
      "a web page",
      "\uFEFF<html><table><tr><td>1.046</td></tr></table></html>",
      /is a web page, whatever its name; open it/,
    ],
    ["a .slk file", "ID;PWXL;N;E\r\nC;X1;Y1;K1.046\r\n", /\.slk format; open it/],
  ] as const)("%s, by its content", async (_, text, why) => {
    expect(await refusal(ascii(text))).toMatch(why);
  });

  test("a workbook of Excel before version 5, and a document of Numbers", async () => {
    expect(await refusal(new Uint8Array([0x09, 0x04, 0x06, 0x00, 0, 0, 0x10, 0, 0, 0]))).toMatch(
      /^is an old \.xls workbook; /,
    );
    expect(await refusal(zipParts({ "Index/Document.iwa": "x" }))).toMatch(
      /export a \.numbers file as \.xlsx/,
    );
  });

  test("an empty file", async () => {
    expect(await refusal(new Uint8Array(0))).toBe("is empty");
  });

  test("a text file", async () => {
    expect(await refusal(ascii("beer;gravity\nMild;1.034\n"))).toBe(
      "is not an .xlsx workbook but text, such as .csv; open it in a spreadsheet program and save it as .xlsx (File, Save As)",
    );
  });

  test("an encrypted workbook", async () => {
    expect(await refusal(compoundFile("EncryptedPackage"))).toBe(
      "is encrypted; open it in Excel and save it without a password",
    );
  });

  test.each(["Workbook", "Book"])("an old .xls workbook with a stream named %s", async (stream) => {
    expect(await refusal(compoundFile(stream))).toBe(
      "is an old .xls workbook; open it in a spreadsheet program and save it as .xlsx (File, Save As)",
    );
  });

  test("an old file of another program", async () => {
    expect(await refusal(compoundFile("WordDocument"))).toBe("is an old Office file, not an .xlsx workbook");
  });

  test("an .xlsb workbook", async () => {
    const types = contentTypesXml("application/vnd.ms-excel.sheet.binary.macroEnabled.main");
    expect(await refusal(zipParts(goodParts({ "[Content_Types].xml": types })))).toBe(
      "is an .xlsb workbook; open it in a spreadsheet program and save it as .xlsx (File, Save As)",
    );
  });

  test("a Word document and a presentation", async () => {
    const office = "application/vnd.openxmlformats-officedocument";
    const word = contentTypesXml(`${office}.wordprocessingml.document.main+xml`);
    const slides = contentTypesXml(`${office}.presentationml.presentation.main+xml`);
    expect(await refusal(zipParts(goodParts({ "[Content_Types].xml": word })))).toMatch(
      /^is a Word document/,
    );
    expect(await refusal(zipParts(goodParts({ "[Content_Types].xml": slides })))).toMatch(
      /^is a PowerPoint presentation/,
    );
  });

  test("OpenDocument files", async () => {
    const sheet = { mimetype: "application/vnd.oasis.opendocument.spreadsheet", "content.xml": "<x/>" };
    const text = { mimetype: "application/vnd.oasis.opendocument.text", "content.xml": "<x/>" };
    expect(await refusal(zipParts(sheet))).toBe(
      "is an OpenDocument spreadsheet (.ods); open it in a spreadsheet program and save it as .xlsx (File, Save As)",
    );
    expect(await refusal(zipParts(text))).toBe("is an OpenDocument file, not an .xlsx workbook");
  });

  test("some other zip file", async () => {
    expect(await refusal(zipParts({ "notes.txt": "hops" }))).toBe("is not an .xlsx workbook");
  });

  test("a package whose main part is something else", async () => {
    expect(await refusal(zipParts(goodParts({ "xl/workbook.xml": "<book/>" })))).toBe(
      "is not an .xlsx workbook",
    );
  });

  test("a macro-enabled workbook is opened, and its macros survive", async () => {
    const types = contentTypesXml("application/vnd.ms-excel.sheet.macroEnabled.main+xml");
    const bytes = zipParts(goodParts({ "[Content_Types].xml": types, "xl/vbaProject.bin": noise(300) }));
    const book = await openWorkbook(bytes);
    const patched = await book.patch([{ sheet: "S", row: 0, column: 0, value: 2 }]);
    expect((await openWorkbook(patched)).model.sheets[0]?.cells[0]?.value).toBe(2);
    expect(spoilEntry.read(patched, "xl/vbaProject.bin")).toEqual(noise(300));
  });
});
