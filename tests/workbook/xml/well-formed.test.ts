import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { WorkbookError } from "../../../src/workbook/error.js";
import { parseXml, type XmlElement } from "../../../src/workbook/xml/xml-tree.js";
import {
  decodeCharacters,
  escapeAttribute,
  escapeText,
  isXmlChar,
} from "../../../src/workbook/xml/xml-text.js";

const parse = (xml: string) => parseXml("part.xml", xml);

/** Refused with the part's name, and not by accident. */
function refused(xml: string): boolean {
  try {
    parse(xml);
    return false;
  } catch (e) {
    expect(e).toBeInstanceOf(WorkbookError);
    expect((e as WorkbookError).message).toContain("part.xml");
    return true;
  }
}

describe("XML that is not well-formed is refused", () => {
  test.each([
    ["nothing", ""],
    ["only white space", " \n"],
    ["text only", "beer"],
    ["no closing tag", "<a>"],
    ["an inner tag not closed", "<a><b></a>"],
    ["tags crossed", "<a><b></a></b>"],
    ["a closing tag too many", "<a/></a>"],
    ["a closing tag of something else", "<a></b>"],
    ["a closing tag in other case", "<a></A>"],
    ["two roots", "<a/><b/>"],
    ["text before the root", "x<a/>"],
    ["text behind the root", "<a/>x"],
    ["a tag cut short", "<a><b"],
    ["an attribute cut short", '<a b="1'],
    ["a closing tag cut short", "<a></a"],
    ["an attribute without quotes", "<a b=1/>"],
    ["an attribute without value", "<a b/>"],
    ["an attribute twice", '<a b="1" b="1"/>'],
    ["attributes not separated", '<a b="1"c="2"/>'],
    ["an attribute with <", '<a b="<"/>'],
    ["a slash inside a tag", '<a / b="1"/>'],
    ["space inside a self-closing end", "<a/ >"],
    ["space before a name", "< a/>"],
    ["space before a closing name", "<a></ a>"],
    ["something behind a closing name", '<a></a b="1">'],
    ["an empty closing tag", "<a></></a>"],
    ["a name that begins with a digit", "<1a/>"],
    ["a name with a quote", "<a'/>"],
    ["a bare ampersand", "<a>malt & hops</a>"],
    ["an unknown entity", "<a>&nbsp;</a>"],
    ["an entity without semicolon", "<a>&amp</a>"],
    ["an unknown entity in an attribute", '<a b="&nbsp;"/>'],
    ["a reference to no character", "<a>&#0;</a>"],
    ["a reference to half a character", "<a>&#xD83C;</a>"],
    ["a reference beyond Unicode", "<a>&#x110000;</a>"],
    ["a reference with a letter", "<a>&#12a;</a>"],
    ["a reference with a sign", "<a>&#-65;</a>"],
    ["an empty reference", "<a>&#;</a>"],
    ["a control character", "<a>\u0001</a>"],
    ["a noncharacter", "<a>\uFFFF</a>"],
    ["a comment cut short", "<a/><!-- x"],
    ["a comment that HTML would close", "<a><!-- x --!></a>"],
    ["CDATA cut short", "<a><![CDATA[x</a>"],
    ["CDATA outside the root", "<![CDATA[x]]><a/>"],
    ["an instruction cut short", "<a/><?x"],
    ["a declaration that is not first", '<a/><?xml version="1.0"?>'],
    ["a declaration that is not first", ' <?xml version="1.0"?><a/>'],
    ["an unknown declaration", "<a><!beer></a>"],
    ["a declaration without a version", '<?xml encoding="UTF-8"?><a/>'],
    ["a declaration of something else", '<?xml version="1.0" b="2"?><a/>'],
    ["a declaration out of order", '<?xml version="1.0" standalone="yes" encoding="UTF-8"?><a/>'],
    ["a declaration of another XML", '<?xml version="2.0"?><a/>'],
    ["an instruction with a reserved name", "<a/><?XML?>"],
    ["an instruction without a name", "<a/><? x?>"],
    ["an instruction with something else for a name", "<a/><?1?>"],
    ["a comment with --", "<a><!-- x -- y --></a>"],
    ["a comment that ends with --->", "<a><!-- x ---></a>"],
    ["the end of CDATA in text", "<a>x]]>y</a>"],
    ["a name with a sign that is no letter", "<a×/>"],
    ["a name that begins with an accent", "<\u0301a/>"],
    ["half a character", "<a>\uD83C</a>"],
    ["the other half of a character", "<a b='\uDF7A'/>"],
    ["a DTD", "<!DOCTYPE a><a/>"],
    ["a DTD in lower case", "<!doctype a><a/>"],
  ])("%s", (_what, xml) => {
    expect(refused(xml)).toBe(true);
  });

  test("at whatever place a well-formed part is cut", () => {
    const xml = `<?xml version="1.0"?><a b='1'><!-- c --><d e="&lt;">f &amp; g</d><![CDATA[<]]><h/></a>`;
    expect(refused(xml)).toBe(false);
    for (let length = 0; length < xml.length; length++)
      expect([length, refused(xml.slice(0, length))]).toEqual([length, true]);
  });
});

describe("well-formed XML is read as XML readers do", () => {
  test.each([
    ["a byte order mark", "\uFEFF<a/>"],
    ["a byte order mark and a declaration", '\uFEFF<?xml version="1.0"?>\r\n<a/>\r\n'],
    ["white space where it is allowed", "<a b = '1'\n\tc\r\n=\"2\" ></a\n>"],
    ["comments and instructions around the root", "<!--x--><?y z?><a/><!----><?y?>"],
    ["an instruction with a question mark", "<a><?x ? ?></a>"],
    ["a comment with > and <", "<a><!-- > < & --></a>"],
    ["names beyond ASCII", "<größe äb=''/>"],
  ])("%s", (_what, xml) => {
    expect(refused(xml)).toBe(false);
  });

  test("references, CDATA, line ends and attribute white space are decoded", () => {
    const root = parse(
      "<a b='x\ty\r\nz&#10;&quot;&#x1F37A;'>1\r\n2\r3&#13;&lt;<![CDATA[&lt;\r\n]]>&#128;&apos;</a>",
    );
    expect(root.attributes[0]?.value).toBe('x y z\n"\u{1F37A}');
    expect(root.text).toBe("1\n2\n3\r<&lt;\n\u0080'");
  });

  test("offsets point at what they name", () => {
    const xml = '<x:a xmlns:x="urn:a"><b c="1"  d=\'&gt;\'>t</b ><e/></x:a>';
    const root = parse(xml);
    const [b, e] = root.children;
    expect(root).toMatchObject({ local: "a", namespace: "urn:a" });
    expect(b).toMatchObject({ name: "b", namespace: "", selfClosing: false });
    const cut = (from: number | undefined, to: number | undefined) => xml.slice(from, to);
    expect(cut(b?.start, b?.end)).toBe("<b c=\"1\"  d='&gt;'>t</b >");
    expect(cut(b?.openEnd, b?.closeStart)).toBe("t");
    expect(b?.attributes.map((a) => [cut(a.start, a.end), cut(a.valueStart, a.valueEnd), a.value])).toEqual([
      ['c="1"', "1", "1"],
      ["d='&gt;'", "&gt;", ">"],
    ]);
    expect(e).toMatchObject({ selfClosing: true });
    expect(cut(e?.start, e?.end)).toBe("<e/>");
    expect([e?.openEnd, e?.closeStart]).toEqual([e?.end, e?.end]);
  });

  test("any text survives being escaped and read", () => {
    const text = fc
      .string({ unit: "grapheme" })
      .filter((s) => Array.from(s).every((c) => isXmlChar(c.codePointAt(0) ?? 0)));
    fc.assert(
      fc.property(text, (s) => {
        const clean = s.replaceAll("\r", "");
        expect(parse(`<a>${escapeText(clean)}</a>`).text).toBe(clean);
        const oneLine = clean.replaceAll("\n", "").replaceAll("\t", "");
        expect(parse(`<a b="${escapeAttribute(oneLine)}"/>`).attributes[0]?.value).toBe(oneLine);
      }),
    );
  });

  test("every character can be written as a reference, with leading zeros or without", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 0x10ffff }), fc.nat(3), (code, zeros) => {
        const expected = isXmlChar(code) ? String.fromCodePoint(code) : undefined;
        expect(decodeCharacters(`&#${"0".repeat(zeros)}${code};`)).toBe(expected);
        expect(decodeCharacters(`&#x${"0".repeat(zeros)}${code.toString(16)};`)).toBe(expected);
        expect(decodeCharacters(`&#x${code.toString(16).toUpperCase()};`)).toBe(expected);
      }),
    );
  });
});

describe("a tree of any shape", () => {
  const name = fc.constantFrom("a", "b", "c-d", "x:e");
  const tree: fc.Arbitrary<string> = fc.letrec<{ node: string }>((tie) => ({
    node: fc
      .tuple(
        name,
        fc.array(fc.oneof({ maxDepth: 5 }, fc.constant("t"), fc.constant("<!--c-->"), tie("node")), {
          maxLength: 4,
        }),
      )
      .map(([tag, inner]) => (inner.length === 0 ? `<${tag}/>` : `<${tag}>${inner.join("")}</${tag}>`)),
  })).node;

  test("is rebuilt exactly from its offsets", () => {
    const rebuilt = (xml: string, e: XmlElement): string => {
      if (e.selfClosing) return xml.slice(e.start, e.end);
      let at = e.openEnd;
      let inner = "";
      for (const child of e.children) {
        inner += xml.slice(at, child.start) + rebuilt(xml, child);
        at = child.end;
      }
      return (
        xml.slice(e.start, e.openEnd) + inner + xml.slice(at, e.closeStart) + xml.slice(e.closeStart, e.end)
      );
    };
    fc.assert(
      fc.property(tree, (xml) => {
        expect(rebuilt(xml, parse(xml))).toBe(xml);
      }),
    );
  });

  test("is refused when one tag is taken out", () => {
    fc.assert(
      fc.property(tree, fc.nat(), (xml, pick) => {
        const starts = Array.from(xml.matchAll(/<[/a-z][^>]*>/g)).filter(([tag]) => !tag.endsWith("/>"));
        fc.pre(starts.length > 0);
        const gone = starts[pick % starts.length];
        const at = gone?.index ?? 0;
        expect(refused(xml.slice(0, at) + xml.slice(at + (gone?.[0].length ?? 0)))).toBe(true);
      }),
    );
  });
});
