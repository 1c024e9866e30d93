import { readFileSync } from "node:fs";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { withPane } from "../../src/build/excel-workbook.js";
import { instructions } from "../../src/build/instructions.js";
import { isExcelPlatform, sideload } from "../../src/build/sideload.js";
import { doStep } from "../../src/build/step.js";
import { typeOf } from "../../src/workbook/package/content-types.js";
import { Package } from "../../src/workbook/package/package.js";
import { readRelationships } from "../../src/workbook/package/relationships.js";
import { unzip } from "../../src/workbook/package/unzip.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { attributeOf, parseXml } from "../../src/workbook/xml/xml-tree.js";

const id = "c2776d25-f14d-4ce4-888e-9a15552724dd";

test("on Windows it is a value of the developer's registry key, put in and taken out", () => {
  const { add, take, open } = sideload("win32", {
    home: "C:\\Users\\brewer",
    manifest: "C:\\gylesheet\\manifest.xml",
    workbook: "C:\\gylesheet\\dist\\season.xlsx",
    id,
  });
  const key = "HKCU\\SOFTWARE\\Microsoft\\Office\\16.0\\WEF\\Developer";
  expect(add).toEqual({
    run: "reg",
    args: ["add", key, "/v", id, "/t", "REG_SZ", "/d", "C:\\gylesheet\\manifest.xml", "/f"],
  });
  expect(take).toEqual({ run: "reg", args: ["delete", key, "/v", id, "/f"] });
  expect(open).toEqual({ run: "explorer", args: ["C:\\gylesheet\\dist\\season.xlsx"] });
});

test("on a Mac it is a copy of the manifest in Excel's own folder, and the same copy taken out", () => {
  const { add, take, open } = sideload("darwin", {
    home: "/Users/brewer",
    manifest: "/src/gylesheet/manifest.xml",
    workbook: "/src/gylesheet/dist/season.xlsx",
    id,
  });
  const copy = `/Users/brewer/Library/Containers/com.microsoft.Excel/Data/Documents/wef/${id}.manifest.xml`;
  expect(add).toEqual({ copy: "/src/gylesheet/manifest.xml", to: copy });
  expect(take).toEqual({ remove: copy });
  expect(open).toEqual({ run: "open", args: ["-a", "Microsoft Excel", "/src/gylesheet/dist/season.xlsx"] });
});

test("elsewhere there is no Excel to tell", () => {
  expect(["linux", "freebsd", "aix"].filter((platform) => isExcelPlatform(platform as "linux"))).toEqual([]);
});

test("steps are done, and say whether they could be", async () => {
  const folder = await mkdtemp(join(tmpdir(), "sideload-"));
  const to = join(folder, "a", "b", "copy.xml");
  const copy = new URL("../../manifest.xml", import.meta.url).pathname;
  expect(await doStep({ copy, to })).toBe(true);
  expect(await readFile(to, "utf8")).toBe(await readFile(copy, "utf8"));
  expect(await doStep({ remove: to })).toBe(true);
  await expect(readFile(to)).rejects.toThrow("ENOENT");
  expect(await doStep({ remove: to })).toBe(true); // undone twice is undone
  expect(await doStep({ run: process.execPath, args: ["-e", "process.exit(0)"] })).toBe(true);
  expect(await doStep({ run: process.execPath, args: ["-e", "process.exit(1)"] })).toBe(false);
  expect(await doStep({ run: join(folder, "nothing"), args: [] })).toBe(false);
  await rm(folder, { recursive: true });
});

test("a workbook asks for the add-in of the developer, and is otherwise as it was", async () => {
  const plain = readFileSync(new URL("../../examples/season.xlsx", import.meta.url));
  const bytes = await withPane(plain, id, "0.1.0.0");
  const parts = new Package(await unzip(bytes));
  const [panes] = readRelationships(parts, "").filter(({ type }) => type.endsWith("/webextensiontaskpanes"));
  const [extension] = readRelationships(parts, panes?.target ?? "");
  expect(extension?.type).toBe("http://schemas.microsoft.com/office/2011/relationships/webextension");
  expect(typeOf(parts, panes?.target ?? "")).toBe("application/vnd.ms-office.webextensiontaskpanes+xml");
  expect(typeOf(parts, extension?.target ?? "")).toBe("application/vnd.ms-office.webextension+xml");

  const root = parseXml("extension", parts.text(extension?.target ?? ""));
  const reference = root.children.find(({ local }) => local === "reference");
  expect(["id", "version", "store", "storeType"].map((name) => attributeOf(reference, name))).toEqual([
    id,
    "0.1.0.0",
    "developer",
    "Registry",
  ]);
  const pane = parseXml("panes", parts.text(panes?.target ?? "")).children[0];
  expect(attributeOf(pane?.children[0], "r:id")).toBe(extension?.id);
  expect((await openWorkbook(bytes)).model).toEqual((await openWorkbook(plain)).model);
});

test("the directions name the manifest, the certificate where it is not trusted, and every host", () => {
  const served = { origin: "https://localhost:3000", manifest: "/src/manifest.xml" };
  const told = instructions({ ...served, authority: "/home/brewer/ca.crt" });
  for (const part of [
    "/home/brewer/ca.crt",
    "Upload My Add-in",
    "Choose /src/manifest.xml",
    "Trusted Add-in Catalogs",
    "~/Library/Containers/com.microsoft.Excel/Data/Documents/wef",
    "iPad",
  ])
    expect(told).toContain(part);
  expect(instructions({ ...served, authority: undefined })).not.toContain("certificate");
});
