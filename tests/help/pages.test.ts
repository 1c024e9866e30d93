import { describe, expect, test } from "vitest";
import { catalogue } from "../../src/functions/catalogue.js";
import { helpFile } from "../../src/functions/metadata.js";
import { brewDay } from "../../src/help/brew-day.js";
import { prose } from "../../src/help/html.js";
import { helpFiles } from "../../src/help/pages.js";
import { kinds } from "../../src/instruments/describe.js";
import { readingPage } from "../../src/instruments/reading-page.js";
import { elements, htmlFaults, parsed, sections, tableNamed, textOf } from "./parts.js";

const files = helpFiles();
const pages = [...files].filter(([name]) => name.endsWith(".html"));
const pageOf = (name: string): string => files.get(helpFile(name)) ?? "";
const linksOf = (html: string): string[] =>
  elements(parsed(html), "a").map(({ attribs }) => attribs["href"] ?? "");

test("every page is sound HTML", () => {
  expect(pages.flatMap(([name, html]) => htmlFaults(html).map((fault) => `${name}: ${fault}`))).toEqual([]);
});

test("the check of HTML finds what is wrong", () => {
  for (const [broken, says] of [
    ["<h1>a</h1><p>b", "not closed"],
    ["<h1>a</h1></p>", "closes nothing"],
    ["<h1>a</h1><h3>b</h3>", "too deep"],
    ["<h2>a</h2>", "not one h1"],
    ['<h1 id="a">a</h1><p id="a">b</p>', "twice"],
    ["<h1>a & b</h1>", "not escaped"],
  ] as const)
    expect(htmlFaults(broken).join()).toContain(says);
});

test("every link leads to a page of the help, and every page is led to", () => {
  const led = new Set(pages.flatMap(([, html]) => linksOf(html)));
  expect([...led].filter((to) => !files.has(to))).toEqual([]);
  expect(pages.map(([name]) => name).filter((name) => !led.has(name))).toEqual([]);
});

describe("the page of a function", () => {
  for (const spec of catalogue)
    test(spec.name, () => {
      const html = pageOf(spec.name);
      const found = sections(html);
      const wanted = [
        "What it takes",
        "What it gives",
        ...(spec.caution === undefined ? [] : ["Cautions"]),
        "Worked example",
        ...(spec.examples.length > 1 ? ["More examples"] : []),
        "Range",
        "How sure it is",
        "Errors, and what to do",
        "Method and sources",
        "See also",
      ];
      expect([...found.keys()]).toEqual(wanted);
      for (const section of found.values()) expect(textOf(section).length).toBeGreaterThan(20);
      const named = elements(found.get("What it takes") ?? parsed(""), "th").map(textOf);
      expect(named.slice(2)).toEqual(spec.parameters.map(({ name }) => name));
      expect(html).not.toMatch(/undefined|NaN|\[object/);
      expect(html).toContain(spec.caution === undefined ? "" : 'class="caution"');
    });
});

test("examples are shown for both decimal separators", () => {
  const text = textOf(parsed(pageOf("ABV")));
  expect(text).toContain("=GYLE.ABV(1.048,1.012)");
  expect(text).toContain("=GYLE.ABV(1,048;1,012)");
});

test("the index leads to every function, by topic", () => {
  const links = linksOf(files.get("index.html") ?? "");
  for (const { name } of catalogue) expect(links.filter((to) => to === helpFile(name))).toHaveLength(1);
});

test("a brew day asks for every function exactly once", () => {
  const asked = brewDay.flatMap(({ functions }) => functions);
  expect([...asked].sort()).toEqual(catalogue.map(({ name }) => name).sort());
  const links = linksOf(files.get("when.html") ?? "").filter((to) =>
    asked.some((name) => helpFile(name) === to),
  );
  expect(links).toEqual(asked.map(helpFile));
});

describe("the page on readings with a kind of instrument", () => {
  for (const kind of kinds)
    test(kind, () => {
      const html = files.get(readingPage(kind)) ?? "";
      const found = sections(html);
      expect([...found.keys()]).toEqual([
        "What it lies about",
        "How to read it",
        "What to write down",
        "What putting right does",
        "How to check it",
        "What goes wrong",
        "Functions that take its readings",
      ]);
      expect(elements(found.get("How to read it") ?? parsed(""), "ol")).toHaveLength(1);
      const takers = catalogue.filter(({ parameters }) => parameters.some((p) => p.instrumentKind === kind));
      expect(linksOf(html)).toEqual(expect.arrayContaining(takers.map(({ name }) => helpFile(name))));
      expect(html).toContain("Common practice");
    });

  test("a glass hydrometer never goes into hot wort, as its first words say", () => {
    const words = textOf(parsed((files.get(readingPage("hydrometer")) ?? "").split("<h1>")[1] ?? ""));
    expect(words).toMatch(/^A good reading: hydrometer\s*Never put a glass hydrometer into hot wort/);
  });

  // Table of the trade: liquid that reads 1.046 warm is stronger, cold it is weaker.
  test("the table of a hydrometer rises with the temperature and meets the scale at 20 °C", () => {
    const section = sections(files.get(readingPage("hydrometer")) ?? "").get("What putting right does");
    const rows = section ? elements(tableNamed(section, "Temperature") ?? section, "tr").slice(1) : [];
    const cells = rows.map((row) => row.children.map((cell) => textOf(cell as never)));
    expect(cells.find(([tC]) => tC === "20 °C")?.[2]).toBe("1.0460");
    const gravities = cells.map(([, , gravity]) => Number(gravity));
    expect(gravities).toEqual([...gravities].sort((a, b) => a - b));
    expect(new Set(gravities).size).toBe(gravities.length);
  });
});

test("a function that is mentioned becomes a link, a word of an argument or of the spreadsheet does not", () => {
  expect(prose("use CALIBRATE.FACTOR.")).toBe('use <a href="calibrate.factor.html">CALIBRATE.FACTOR</a>.');
  expect(prose("See ABV and ABW.", "ABV")).toBe('See ABV and <a href="abw.html">ABW</a>.');
  for (const text of [
    'the "ENERGY" of it',
    "as in the spreadsheet's CONVERT",
    "FERMENT.RATES",
    "XABV",
    "CONVERT(1",
  ])
    expect(prose(text)).not.toContain("<a");
});
