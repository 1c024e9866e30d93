import {
  BooleanNumber,
  BorderStyleTypes,
  HorizontalAlign,
  VerticalAlign,
  WrapStrategy,
} from "@univerjs/core";
import type { IBorderData, IStyleData } from "@univerjs/core";
import type { CellStyle, BorderLine, Side } from "../../workbook/style/styles.js";

const horizontal: Readonly<Record<string, HorizontalAlign>> = {
  left: HorizontalAlign.LEFT,
  center: HorizontalAlign.CENTER,
  centerContinuous: HorizontalAlign.CENTER,
  right: HorizontalAlign.RIGHT,
  justify: HorizontalAlign.JUSTIFIED,
  distributed: HorizontalAlign.DISTRIBUTED,
};

const vertical: Readonly<Record<string, VerticalAlign>> = {
  top: VerticalAlign.TOP,
  center: VerticalAlign.MIDDLE,
  bottom: VerticalAlign.BOTTOM,
};

const lines: Readonly<Record<string, BorderStyleTypes>> = {
  thin: BorderStyleTypes.THIN,
  hair: BorderStyleTypes.HAIR,
  dotted: BorderStyleTypes.DOTTED,
  dashed: BorderStyleTypes.DASHED,
  dashDot: BorderStyleTypes.DASH_DOT,
  dashDotDot: BorderStyleTypes.DASH_DOT_DOT,
  double: BorderStyleTypes.DOUBLE,
  medium: BorderStyleTypes.MEDIUM,
  mediumDashed: BorderStyleTypes.MEDIUM_DASHED,
  mediumDashDot: BorderStyleTypes.MEDIUM_DASH_DOT,
  mediumDashDotDot: BorderStyleTypes.MEDIUM_DASH_DOT_DOT,
  slantDashDot: BorderStyleTypes.SLANT_DASH_DOT,
  thick: BorderStyleTypes.THICK,
};

const edges: readonly (readonly [Side, "l" | "r" | "t" | "b"])[] = [
  ["left", "l"],
  ["right", "r"],
  ["top", "t"],
  ["bottom", "b"],
];

/** A cell's style for Univer. */
export function univerStyle(style: CellStyle): IStyleData {
  const { fontName, fontSize, colour, fill, numberFormat } = style;
  const align = style.horizontal === undefined ? undefined : horizontal[style.horizontal];
  // Files omit "bottom", the default alignment of cells.
  const rise = vertical[style.vertical ?? "bottom"];
  return {
    ...(fontName === undefined ? {} : { ff: fontName }),
    ...(fontSize === undefined ? {} : { fs: fontSize }),
    ...(style.bold ? { bl: BooleanNumber.TRUE } : {}),
    ...(style.italic ? { it: BooleanNumber.TRUE } : {}),
    ...(style.underline ? { ul: { s: BooleanNumber.TRUE } } : {}),
    ...(style.strike ? { st: { s: BooleanNumber.TRUE } } : {}),
    ...(colour === undefined ? {} : { cl: { rgb: colour } }),
    ...(fill === undefined ? {} : { bg: { rgb: fill } }),
    ...(numberFormat === undefined ? {} : { n: { pattern: numberFormat } }),
    ...(align === undefined ? {} : { ht: align }),
    ...(rise === undefined ? {} : { vt: rise }),
    ...(style.wrap ? { tb: WrapStrategy.WRAP } : {}),
    ...(Object.keys(style.lines).length === 0 ? {} : { bd: borders(style.lines) }),
  };
}

function borders(of: CellStyle["lines"]): IBorderData {
  const data: IBorderData = {};
  for (const [side, edge] of edges) {
    const line: BorderLine | undefined = of[side];
    if (line)
      data[edge] = { s: lines[line.style] ?? BorderStyleTypes.THIN, cl: { rgb: line.colour ?? "#000000" } };
  }
  return data;
}
