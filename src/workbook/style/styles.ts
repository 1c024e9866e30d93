import { builtInFormats } from "./number-formats.js";
import { tinted } from "./theme-colours.js";
import { attributeOf, childOf, childrenOf, isTrue, parseXml, type XmlElement } from "../xml/xml-tree.js";

/** A border of a cell. */
export interface BorderLine {
  /** Name in files: "thin", "medium", "double" … */
  readonly style: string;
  readonly colour: string | undefined;
}

/** Style of a cell. Colours are "#RRGGBB"; undefined means the spreadsheet's default. */
export interface CellStyle {
  readonly numberFormat: string | undefined;
  readonly fontName: string | undefined;
  /** Points. */
  readonly fontSize: number | undefined;
  readonly bold: boolean;
  readonly italic: boolean;
  readonly underline: boolean;
  readonly strike: boolean;
  readonly colour: string | undefined;
  readonly fill: string | undefined;
  readonly horizontal: string | undefined;
  readonly vertical: string | undefined;
  readonly wrap: boolean;
  readonly lines: Readonly<Partial<Record<Side, BorderLine>>>;
}

export type Side = "left" | "right" | "top" | "bottom";
const sides: readonly Side[] = ["left", "right", "top", "bottom"];

type Colours = readonly (string | undefined)[];

/**
 * Cell styles, by index.
 *
 * @param theme colours of the theme, by index
 * @throws WorkbookError if the part is damaged
 */
export function readStyles(part: string, xml: string, theme: Colours): CellStyle[] {
  const root = parseXml(part, xml);
  const list = (name: string, item: string): readonly XmlElement[] => childrenOf(childOf(root, name), item);
  const formats = new Map(builtInFormats);
  for (const format of list("numFmts", "numFmt"))
    formats.set(Number(attributeOf(format, "numFmtId")), attributeOf(format, "formatCode") ?? "General");
  const fonts = list("fonts", "font");
  const fills = list("fills", "fill");
  const borders = list("borders", "border");
  return list("cellXfs", "xf").map((xf) => {
    const pick = (from: readonly XmlElement[], name: string): XmlElement | undefined =>
      from[Number(attributeOf(xf, name) ?? 0)];
    const alignment = childOf(xf, "alignment");
    const format = formats.get(Number(attributeOf(xf, "numFmtId") ?? 0));
    return {
      numberFormat: format === "General" ? undefined : format,
      ...fontOf(pick(fonts, "fontId"), theme),
      fill: fillOf(pick(fills, "fillId"), theme),
      lines: linesOf(pick(borders, "borderId"), theme),
      horizontal: attributeOf(alignment, "horizontal"),
      vertical: attributeOf(alignment, "vertical"),
      wrap: isTrue(attributeOf(alignment, "wrapText")),
    };
  });
}

function fontOf(font: XmlElement | undefined, theme: Colours) {
  const value = (name: string): string | undefined => attributeOf(childOf(font, name), "val");
  const isOn = (name: string): boolean => {
    const element = childOf(font, name);
    return element !== undefined && !["0", "false", "none"].includes(attributeOf(element, "val") ?? "");
  };
  const size = Number(value("sz"));
  return {
    fontName: value("name"),
    fontSize: size > 0 ? size : undefined,
    bold: isOn("b"),
    italic: isOn("i"),
    underline: isOn("u"),
    strike: isOn("strike"),
    colour: colourOf(childOf(font, "color"), theme),
  };
}

/** Patterns show as their main colour. */
function fillOf(fill: XmlElement | undefined, theme: Colours): string | undefined {
  const pattern = childOf(fill, "patternFill");
  const type = attributeOf(pattern, "patternType") ?? "none";
  return type === "none" ? undefined : colourOf(childOf(pattern, "fgColor"), theme);
}

function linesOf(border: XmlElement | undefined, theme: Colours): Partial<Record<Side, BorderLine>> {
  return Object.fromEntries(
    sides.flatMap((side) => {
      const line = childOf(border, side);
      const style = attributeOf(line, "style") ?? "none";
      return style === "none" ? [] : [[side, { style, colour: colourOf(childOf(line, "color"), theme) }]];
    }),
  );
}

/** Colours of the old palette are left at the default: present files use only its black. */
function colourOf(element: XmlElement | undefined, theme: Colours): string | undefined {
  const number = attributeOf(element, "theme");
  const rgb =
    attributeOf(element, "rgb")?.slice(-6) ?? (number === undefined ? undefined : theme[Number(number)]);
  if (rgb === undefined || !/^[0-9a-fA-F]{6}$/.test(rgb)) return undefined;
  const tint = Number(attributeOf(element, "tint") ?? 0);
  return `#${tint === 0 ? rgb.toUpperCase() : tinted(rgb, tint)}`;
}
