import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import { expect, test } from "vitest";

// What a user reads spells a unit in one way only: as ISO 80000 does, with a space before it, and the degree sign at its letter.

const src = fileURLToPath(new URL("../../src/", import.meta.url));

/** Spellings that are wrong wherever they stand in a text, and what is right. */
const wrong: readonly (readonly [RegExp, string])[] = [
  [/\d°[A-Z]/, "20 °C, with a space"],
  [/° [CFP]\b/, "°C, without one"],
  [/º|\bdeg(rees)? ?[CF]\b/, "°C"],
  [/\d%(?!\))/, "5 %, with a space"],
  [/kg\/m\^?3/, "kg/m³"],
  [/\bg\/l\b/, "g/L"],
  [/\d ?ml\b|\bmls\b/, "mL"],
  [/\d(kg|mL|kcal|kJ|hL)\b/, "5 kg, with a space"],
  [/\+\/-|\+-\d/, "±"],
  [/% ?(ABV|abv|by volume)\b/, "% vol"],
  [/° ?(Plato|Brix)/, "°P or °Bx"],
];

/** Texts in the source, with what stands before them if they go on after something inserted. */
function* texts(node: ts.Node): Generator<string> {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) yield node.text;
  // Something that was worked out stands before the rest of a template: as a rule a number.
  else if (ts.isTemplateExpression(node)) {
    yield node.head.text;
    for (const { literal } of node.templateSpans) yield `1${literal.text}`;
  }
  const inside: ts.Node[] = [];
  node.forEachChild((child) => {
    inside.push(child);
  });
  for (const child of inside) yield* texts(child);
}

/** Rules for style sheets, shapes and patterns are no sentences. */
const isProse = (text: string): boolean => !/[{}<]|:\s*\d+%|^[\d.#]*%$|width|rgb|^1%/.test(text);

const files = readdirSync(src, { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".ts"));

test("units are spelled in one way wherever a user reads them", () => {
  const found: string[] = [];
  for (const file of files) {
    const source = ts.createSourceFile(
      file,
      readFileSync(`${src}${file}`, "utf8"),
      ts.ScriptTarget.Latest,
      true,
    );
    for (const text of texts(source))
      for (const [pattern, right] of wrong)
        if (isProse(text) && pattern.test(text)) found.push(`${file}: "${text.slice(0, 90)}" → ${right}`);
  }
  expect(found).toEqual([]);
});
