import { buildBook, sheetXml } from "../support/build-workbook.js";

const FORMULAS = [
  "HYDROMETER(A#,B#)",
  "HYDROMETER(C#,D#)",
  "ABV(E#,F#)",
  "ATTENUATION_APPARENT(E#,F#)",
  "ATTENUATION_REAL(E#,F#)",
  "EXTRACT_REAL(E#,F#)",
  "ENERGY(E#,F#)",
  "ABW(E#,F#)",
];

/** A workbook with a batch a row: readings in A to D, formulas of ours that follow from them beside. */
export function batches(rows: number, formulas: number): Uint8Array {
  const lines = Array.from({ length: rows }, (_, i) => {
    const row = i + 1;
    const values = [1.04 + (i % 40) * 1e-3, 12 + (i % 18), 1.008 + (i % 9) * 1e-3, 10 + (i % 12)];
    const readings = values.map((value, c) => `<c r="${"ABCD".charAt(c)}${row}"><v>${value}</v></c>`);
    const cells = FORMULAS.slice(0, formulas).map((text, c) => {
      const stored = `_xldudf_GYLE_${text.replaceAll("#", String(row))}`;
      return `<c r="${"EFGHIJKL".charAt(c)}${row}"><f>${stored}</f></c>`;
    });
    return `<row r="${row}">${readings.join("")}${cells.join("")}</row>`;
  });
  return buildBook({ sheets: { Batches: sheetXml(lines.join("")) } });
}
