import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { Cell } from "../../src/workbook/model.js";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { bookOf } from "../support/build-workbook.js";
import { convert } from "../support/libreoffice.js";
import { libreOffice } from "../support/tools.js";
import { patchBook } from "../support/patched.js";

// A second opinion where LibreOffice is installed: it reads what we write, and writes out shared formulas on its own.

const cellsOf = async (bytes: Uint8Array): Promise<readonly Cell[]> =>
  (await openWorkbook(bytes)).model.sheets[0]?.cells ?? [];

describe.runIf(libreOffice.present)("LibreOffice agrees", { timeout: 120_000 }, () => {
  test("how shared formulas read in each cell", async () => {
    const texts = [
      "A1+$B$2+C$3+$D4",
      "SUM(A:A)+SUM($B:C)+SUM(1:1)+SUM($2:3)",
      'IF(A1="A1",LOG10(B1),"say ""B1""")',
      "SUM(A1:B$3)*-C1%",
      "INDEX(A1:C9,2,1)+MAX({1,2;3,4})*A1",
    ];
    const columns = ["K", "L", "M", "N", "O"];
    const row = (number: number, content: (si: number) => string) =>
      `<row r="${number}">${columns.map((c, si) => `<c r="${c}${number}">${content(si)}</c>`).join("")}</row>`;
    const rows = [2, 3, 4].map((number) =>
      row(number, (si) =>
        number === 2
          ? `<f t="shared" ref="${columns[si] ?? ""}2:${columns[si] ?? ""}4" si="${si}">${texts[si] ?? ""}</f>`
          : `<f t="shared" si="${si}"/>`,
      ),
    );
    const bytes = bookOf(rows.join(""));
    const ours = (await cellsOf(bytes)).map(({ formula }) => formula?.text);
    const theirs = (await cellsOf(await convert(bytes, "xlsx"))).map(({ formula }) => formula?.text);
    expect(ours).toHaveLength(15);
    expect(theirs).toEqual(ours);
  });

  test("on the values of a patched brew log, new cells, formulas and odd texts included", async () => {
    const sample = new Uint8Array(
      readFileSync(new URL("../workbooks/brew-log-existing.xlsx", import.meta.url)),
    );
    const text = ' <Öl & "Hopfen"> \u{1F37A}\n_x0041_\tend';
    const patched = await patchBook(sample, [
      { sheet: "Batches", row: 1, column: 0, value: text },
      { sheet: "Batches", row: 3, column: 9, value: 4.25 },
      { sheet: "Batches", row: 4, column: 9, value: "checked" },
      { sheet: "Batches", row: 5, column: 30, value: { error: "#N/A" } },
      { sheet: "Batches", row: 90, column: 30, value: true },
      { sheet: "Batches", row: 91, column: 0, value: null, formula: { text: "1+2", kind: "plain" } },
    ]);
    const ours = (await cellsOf(patched)).map((cell) => (cell.row === 91 ? { ...cell, value: 3 } : cell));
    const theirs = await cellsOf(await convert(patched, "xlsx"));
    expect(theirs.map(({ row, column, value }) => [row, column, value])).toEqual(
      ours.map(({ row, column, value }) => [row, column, value]),
    );
  });

  test("on the notes of a patched brew log, which are hidden", async () => {
    const sample = new Uint8Array(
      readFileSync(new URL("../workbooks/brew-log-existing.xlsx", import.meta.url)),
    );
    const notes = [
      { sheet: "Batches", row: 5, column: 3, text: "second thought" },
      { sheet: "Batches", row: 6, column: 3, text: "=GYLE.ABV(D7,G7)" },
      { sheet: "Grist", row: 0, column: 0, text: "fresh & <new>" },
    ];
    const flat = new TextDecoder().decode(await convert(await patchBook(sample, [], { notes }), "fods"));
    const found = flat
      .split("<office:annotation ")
      .slice(1)
      .map((part) => part.split("</office:annotation>")[0] ?? "");
    const texts = found.map((part) =>
      Array.from(part.matchAll(/<text:p[^>]*>(.*?)<\/text:p>/gs), ([, line = ""]) =>
        line.replaceAll(/<[^>]*>/g, "").trim(),
      ),
    );
    expect(texts).toContainEqual(["Read at the top of the meniscus, I think.", "second thought"]);
    expect(texts).toContainEqual(["=GYLE.ABV(D7,G7)"]);
    expect(texts).toContainEqual(["fresh &amp; &lt;new&gt;"]);
    expect(found).toHaveLength(3);
    expect(found.filter((part) => part.includes('office:display="true"'))).toEqual([]);
  });
});
