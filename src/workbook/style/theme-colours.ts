import { attributeOf, parseXml } from "../xml/xml-tree.js";

/** The indexes of colours in styles differ from their order in the theme. */
const order = [1, 0, 3, 2, 4, 5, 6, 7, 8, 9, 10, 11];

/**
 * Colours of a theme as "RRGGBB", by the indexes used in styles.
 *
 * @throws WorkbookError if the part is damaged
 */
export function readThemeColours(part: string, xml: string): readonly (string | undefined)[] {
  const elements = parseXml(part, xml).children.find(({ local }) => local === "themeElements");
  const scheme = elements?.children.find(({ local }) => local === "clrScheme")?.children ?? [];
  const listed = scheme.map(
    ({ children: [colour] }) => attributeOf(colour, "lastClr") ?? attributeOf(colour, "val"),
  );
  return order.map((place) => listed[place]);
}

/** A colour made lighter (tint up to 1) or darker (down to -1) by its lightness. */
export function tinted(rgb: string, tint: number): string {
  const channels = [0, 2, 4].map((at) => parseInt(rgb.slice(at, at + 2), 16) / 255);
  const most = Math.max(...channels);
  const least = Math.min(...channels);
  const lightness = (most + least) / 2;
  const wanted = tint < 0 ? lightness * (1 + tint) : lightness * (1 - tint) + tint;
  // Saturation is kept, so all channels keep their share of the range between black, the lightness and white.
  const room = (l: number): number => 1 - Math.abs(2 * l - 1);
  const share = room(lightness) === 0 ? 0 : room(wanted) / room(lightness);
  return channels
    .map((channel) => Math.round(255 * Math.min(1, Math.max(0, wanted + (channel - lightness) * share))))
    .map((channel) => channel.toString(16).padStart(2, "0"))
    .join("")
    .toUpperCase();
}
