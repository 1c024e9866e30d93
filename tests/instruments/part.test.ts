import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { partNamespace, readPart, writePart } from "../../src/instruments/part.js";
import { InstrumentsRefused } from "../../src/instruments/refusal.js";
import { instruments } from "../support/instruments.js";

test("the workbook part survives writing and reading", () => {
  expect(readPart(writePart(instruments))).toEqual(instruments);
});

test("any name survives", () => {
  const hydrometer = instruments.instruments[0];
  fc.assert(
    fc.property(fc.string({ unit: "grapheme", minLength: 1, maxLength: 20 }), (text) => {
      const name = text.trim();
      if (!hydrometer || name === "") return;
      const set = { version: 1 as const, instruments: [{ ...hydrometer, name }] };
      expect(readPart(writePart(set))).toEqual(set);
    }),
  );
});

const part = (inside: string, before = ""): string =>
  `<?xml version="1.0"?>${before}<instruments xmlns="${partNamespace}">${inside}</instruments>`;
const json = '{"version":1,"instruments":[]}';

test("white space, comments and CDATA around the text do not matter", () => {
  expect(readPart(part(`\n <!-- note --> ${json}\n`)).instruments).toEqual([]);
  expect(readPart(part(`<![CDATA[${json}]]>`)).instruments).toEqual([]);
});

describe("a part is refused, and so left alone, when", () => {
  for (const [why, xml] of [
    ["it declares entities", part(json, '<!DOCTYPE x [<!ENTITY a "aaaa">]>')],
    ["it uses an entity that nobody declared", part(json.replace("1", "&lol;"))],
    ["it is cut short", part(json).slice(0, -5)],
    ["it nests elements", part("<a><b></b></a>")],
    ["it nests ten thousand elements", "<a>".repeat(10_000)],
    ["its root is not ours", `<other xmlns="${partNamespace}">${json}</other>`],
    ["its namespace is not ours", `<instruments xmlns="urn:other">${json}</instruments>`],
    ["it has two roots", part(json) + part(json)],
    ["it is empty", ""],
    ["it is no XML", "PK\u0003\u0004"],
    ["it holds no JSON", part("hello")],
  ] as const)
    test(why, () => {
      expect(() => readPart(xml)).toThrow(InstrumentsRefused);
    });
});

test("a part of a later version is told apart, so that it can be kept", () => {
  expect(() => readPart(part('{"version":7}'))).toThrow(
    expect.objectContaining({ because: "newer" }) as Error,
  );
});
