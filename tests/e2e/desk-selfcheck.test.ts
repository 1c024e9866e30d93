// The workbook that checks a spreadsheet program, opened at the desk: it has no values of its own.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { chromium } from "../support/tools.js";
import { becomes, cells, deskSession, isOpen, open } from "./desk-session.js";

describe.skipIf(!chromium.present)("the selfcheck", () => {
  const desk = deskSession();

  test("passes at the desk", async () => {
    const page = await desk();
    await open(
      page,
      "selfcheck.xlsx",
      readFileSync(new URL("../../examples/selfcheck.xlsx", import.meta.url)),
    );
    await isOpen(page, "selfcheck.xlsx");
    await becomes(page, "Check!B2", ([row]) => /^(PASS|FAIL)/.test(String(row?.[0])));
    const lines = (await cells(page, "Check!A7:F120")).filter(([what]) => what !== "");
    expect(lines.filter((line) => line[5] === "FAIL")).toEqual([]);
    expect(await cells(page, "Check!B2")).toEqual([[expect.stringMatching(/^PASS/)]]);
    expect(lines.filter((line) => line[5] === "PASS").length).toBeGreaterThanOrEqual(lines.length - 3);
  });
});
