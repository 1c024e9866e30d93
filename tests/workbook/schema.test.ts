// Parts of written workbooks, against the schemas of ISO/IEC 29500 (transitional) and of its packages, and against what Excel wants
// beyond them.
import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { parseAddress } from "../../src/cells/a1.js";
import { folderWith, read, recalc, season } from "../recalc/command.js";
import { asExcelSaves } from "../support/excel-form.js";
import { partTexts } from "../support/build-workbook.js";
import { workbookSchemas, xmllint } from "../support/tools.js";

const folder = folderWith({
  "season.xlsx": await asExcelSaves(season()),
  "plain.xlsx": await asExcelSaves(season(), "unbound"),
});
for (const args of [
  ["season.xlsx", "--live"],
  ["season.xlsx", "--values"],
  ["plain.xlsx", "--repair"],
])
  await recalc(folder, ...args);
const made = new Map(
  ["season-live.xlsx", "season-values.xlsx", "plain.xlsx"].map(
    (name) => [name, partTexts(read(folder, name))] as const,
  ),
);

/** The schema for a part, if there is one. */
function schemaFor(part: string): string | undefined {
  if (part === "[Content_Types].xml") return "opc/opc-contentTypes.xsd";
  if (part.endsWith(".rels")) return "opc/opc-relationships.xsd";
  return /^xl\/(worksheets\/|comments|metadata|workbook|styles|sharedStrings|calcChain)/.test(part)
    ? "transitional/sml.xsd"
    : undefined;
}

/** "xml:space" is not in the schema, and Excel writes it all the same; extensions have namespaces of their own. */
const judged = (xml: string): string =>
  xml.replaceAll(/ xml:space="preserve"/g, "").replaceAll(/ (?:mc:Ignorable|x14ac:[a-zA-Z]+)="[^"]*"/g, "");

describe.runIf(workbookSchemas.present && xmllint.present)("the schemas", () => {
  for (const [name, parts] of made)
    test(`take every part of ${name}`, () => {
      const faults: string[] = [];
      let count = 0;
      for (const [part, xml] of parts) {
        const schema = schemaFor(part);
        if (schema === undefined) continue;
        const file = join(folder, "part.xml");
        writeFileSync(file, judged(xml));
        const { status, stderr } = spawnSync(
          xmllint.path ?? "",
          ["--noout", "--schema", join(workbookSchemas.path ?? "", schema), file],
          { encoding: "utf8" },
        );
        if (status !== 0) faults.push(`${part}: ${stderr.slice(0, 600)}`);
        count++;
      }
      expect(count).toBeGreaterThan(10);
      expect(faults).toEqual([]);
    });
});

describe("what Excel wants beyond the schemas", () => {
  for (const [name, parts] of made) {
    const sheets = [...parts].filter(([part]) => /^xl\/worksheets\/sheet\d+\.xml$/.test(part));

    test(`${name}: cells in order, one drawing of notes to a sheet, and no calculation chain that is out of date`, () => {
      expect(sheets.length).toBeGreaterThan(5);
      for (const [, xml] of sheets) {
        const places = [...xml.matchAll(/<c r="([A-Z]+\d+)"/g)].map(([, address = ""]) => {
          const place = parseAddress(address);
          return (place?.row ?? NaN) * 16_384 + (place?.column ?? NaN);
        });
        expect(places).toEqual([...new Set(places)].sort((a, b) => a - b));
        expect(xml.match(/<legacyDrawing /g)?.length ?? 0).toBeLessThan(2);
      }
      expect([...parts.keys()]).not.toContain("xl/calcChain.xml");
    });

    test(`${name}: each relationship leads to a part with a content type, and ids are used once`, () => {
      const types = parts.get("[Content_Types].xml") ?? "";
      const extensions = new Set(
        [...types.matchAll(/Extension="([^"]+)"/g)].map(([, extension]) => extension),
      );
      for (const [part, xml] of parts) {
        if (part !== "[Content_Types].xml")
          expect([
            part,
            types.includes(`PartName="/${part}"`) || extensions.has(part.split(".").at(-1)),
          ]).toEqual([part, true]);
        if (!part.endsWith(".rels")) continue;
        const ids = [...xml.matchAll(/ Id="([^"]+)"/g)].map(([, id]) => id);
        expect([part, new Set(ids).size]).toEqual([part, ids.length]);
        const home = part.replace(/_rels\/[^/]+$/, "");
        for (const [, target = ""] of xml.matchAll(/ Target="([^"]+)"/g)) {
          const path = target.startsWith("/")
            ? target.slice(1)
            : new URL(target, `file:///${home}`).pathname.slice(1);
          expect([part, target, parts.has(path)]).toEqual([part, target, true]);
        }
      }
    });

    test(`${name}: every formula in the form of a dynamic array has its mark in the metadata`, () => {
      const marks = [
        ...sheets
          .map(([, xml]) => xml)
          .join("")
          .matchAll(/<c [^>]*cm="(\d+)"/g),
      ].map(([, cm]) => Number(cm));
      const count = /<cellMetadata count="(\d+)"/.exec(parts.get("xl/metadata.xml") ?? "")?.[1];
      for (const mark of marks) expect(mark).toBeLessThanOrEqual(Number(count));
      expect(marks.length > 0).toBe(name === "plain.xlsx");
    });
  }
});
