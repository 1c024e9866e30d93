// Damages workbooks: their bytes, what their zip directory says, their parts, and the XML in these.
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { spoilEntry } from "../support/spoil-zip.js";
import { anyFormula } from "./any-formula.js";
import type { Dice } from "./dice.js";

type Files = Record<string, Uint8Array>;

const flipped = (bytes: Uint8Array, dice: Dice): Uint8Array => {
  const changed = bytes.slice();
  for (let left = 1 + dice.below(4); left > 0; left--) {
    const at = dice.chance(0.3)
      ? Math.max(0, changed.length - 1 - dice.below(400))
      : dice.below(changed.length);
    changed[at] = dice.below(256);
  }
  return changed;
};

const truncated = (bytes: Uint8Array, dice: Dice): Uint8Array =>
  dice.chance(0.5) ? bytes.slice(0, dice.below(bytes.length)) : bytes.slice(dice.below(bytes.length));

/** A size, checksum or method that is not so, in the directory alone or in both places. */
const lying = (bytes: Uint8Array, dice: Dice): Uint8Array => {
  const name = dice.pick(Object.keys(unzipSync(bytes)));
  const field = dice.pick(["flags", "method", "crc", "packed", "unpacked"] as const);
  const value = dice.pick([0, 1, 8, 9, 99, 65_535, 1_000_000, 600 * 2 ** 20, 0xffff_ffff]);
  return spoilEntry.field(bytes, name, field, value, { header: dice.chance(0.5) });
};

const ofBytes = [flipped, flipped, truncated, lying];

const texts = [
  "",
  "0",
  "-1",
  "1",
  "NaN",
  "1e999",
  "99999999999",
  "2",
  "s",
  "str",
  "e",
  "b",
  "d",
  "inlineStr",
  "array",
  "shared",
];
const values = [
  ...texts,
  "A1",
  "XFE1",
  "A1:XFD1048576",
  "#REF!",
  "http://x.invalid/",
  "../../../../etc/x",
  "&amp;",
  "&#0;",
  "&a;",
  "\u0000",
  "\ud800",
];
const insertions = [
  "<!DOCTYPE x [<!ENTITY a 'aa'><!ENTITY b '&a;&a;&a;&a;'>]>",
  ...[
    "<!-- ",
    "<![CDATA[",
    "]]>",
    "<?xml version='1.0' encoding='UTF-16'?>",
    "<x>",
    "</x>",
    "<f>",
    "</c>",
    "&lol;",
    "&#x110000;",
  ],
  ...[
    "<c r='A1'/>",
    "<row r='1'/>",
    "<c r='ZZ9'><f>GYLE.ABV(1.05,1.01)</f></c>",
    "\ufeff",
    "<v>1</v>",
    "<sheetData/>",
    "<is><t>x</t></is>",
  ],
  "<x>".repeat(100),
];

/** Replaces one of the places that a pattern finds. */
function replaceOne(xml: string, pattern: RegExp, by: (match: string) => string, dice: Dice): string {
  const found = [...xml.matchAll(pattern)];
  if (found.length === 0) return xml;
  const match = dice.pick(found);
  return xml.slice(0, match.index) + by(match[0]) + xml.slice(match.index + match[0].length);
}

const attribute = /\s[\w:]+="[^"]*"/g;
const element = /<(\w+)(?:\s[^<>]*)?(?:\/>|>[^<]*<\/\1>)/g;

const ofXml: readonly ((xml: string, dice: Dice) => string)[] = [
  (xml, dice) =>
    replaceOne(xml, attribute, (found) => `${found.split("=")[0] ?? ""}="${dice.pick(values)}"`, dice),
  (xml, dice) => replaceOne(xml, attribute, () => "", dice),
  (xml, dice) => replaceOne(xml, attribute, (found) => found + found, dice),
  (xml, dice) => replaceOne(xml, element, () => "", dice),
  (xml, dice) => replaceOne(xml, element, (found) => found + found, dice),
  (xml, dice) => replaceOne(xml, />[^<>]+</g, () => `>${dice.pick(values)}<`, dice),
  (xml, dice) => {
    const at = dice.below(xml.length + 1);
    return xml.slice(0, at) + dice.pick(insertions) + xml.slice(at);
  },
  (xml, dice) => xml.slice(0, dice.below(xml.length + 1)),
  (xml, dice) => replaceOne(xml, /<\/?\w+/g, (found) => `${found}x`, dice),
];

/** Formulas of a sheet, some of them for others. */
const withFormulas = (xml: string, dice: Dice): string => {
  let changed = xml;
  for (let left = 1 + dice.below(3); left > 0; left--)
    changed = dice.chance(0.6)
      ? replaceOne(changed, /<f[^<>]*>[^<]*<\/f>/g, () => `<f>${anyFormula(dice)}</f>`, dice)
      : replaceOne(changed, /<v>[^<]*<\/v>/g, () => `<v>${dice.pick(values)}</v>`, dice);
  return changed;
};

/** What is written into it is most of what matters. */
const isText = (name: string): boolean => /\.(xml|rels)$/.test(name);
const isSheet = (name: string): boolean => /^xl\/worksheets\/[^/]*\.xml$/.test(name);
const isInstruments = (name: string): boolean => /^customXml\/item\d+\.xml$/.test(name);

const ofParts: readonly ((files: Files, dice: Dice) => void)[] = [
  (files, dice) => {
    Reflect.deleteProperty(files, dice.pick(Object.keys(files)));
  },
  (files, dice) => {
    const name = dice.pick(Object.keys(files));
    files[dice.pick([name.toUpperCase(), `${name}x`, `/${name}`, `xl/../${name}`])] =
      files[name] ?? new Uint8Array();
  },
  (files, dice) => {
    const [a, b] = [dice.pick(Object.keys(files)), dice.pick(Object.keys(files))];
    [files[a], files[b]] = [files[b] ?? new Uint8Array(), files[a] ?? new Uint8Array()];
  },
  (files, dice) => {
    files[dice.pick(Object.keys(files))] = new Uint8Array(dice.pick([0, 1, 1000, 3_000_000]));
  },
];

function rewritten(
  files: Files,
  which: (name: string) => boolean,
  how: (xml: string, dice: Dice) => string,
  dice: Dice,
): void {
  const names = Object.keys(files).filter(which);
  if (names.length === 0) return;
  const name = dice.pick(names);
  files[name] = strToU8(how(strFromU8(files[name] ?? new Uint8Array()), dice));
}

/** A damaged copy. */
export function mutated(bytes: Uint8Array, dice: Dice): Uint8Array {
  if (dice.chance(0.15)) return dice.pick(ofBytes)(bytes, dice);
  const files: Files = { ...unzipSync(bytes) };
  for (let left = dice.pick([1, 1, 1, 1, 2, 3]); left > 0; left--) {
    const kind = dice.below(20);
    if (kind < 2) dice.pick(ofParts)(files, dice);
    else if (kind < 4) rewritten(files, isInstruments, dice.pick(ofXml), dice);
    else if (kind < 7) rewritten(files, isText, dice.pick(ofXml), dice);
    else if (kind < 10) rewritten(files, isSheet, dice.pick(ofXml), dice);
    else rewritten(files, isSheet, withFormulas, dice);
  }
  const zipped = zipSync(files, { level: 1, mtime: new Date(2026, 0, 5, 8, 30) });
  return dice.chance(0.03) ? dice.pick(ofBytes)(zipped, dice) : zipped;
}
