import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

const folder = new URL("../../src/excel/icons/", import.meta.url);
const drawings = readdirSync(folder)
  .filter((name) => name.endsWith(".svg"))
  .map((name) => ({ name, svg: readFileSync(new URL(name, folder), "utf8") }));

/** Relative luminance, WCAG 2.2. */
function luminance(colour: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const c = parseInt(colour.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

test("contrast is that of the standard at its ends", () => {
  expect(contrast("#000000", "#ffffff")).toBe(21);
  expect(contrast("#777777", "#777777")).toBe(1);
});

test("every line stands out from a light, a dark and a high-contrast ribbon", () => {
  // WCAG 2.2, 1.4.11: graphics need 3:1. The tint below the surface carries no meaning of its own.
  for (const { name, svg } of drawings) {
    const colours = [...svg.matchAll(/(?:stroke|fill)="(#\w{6})"(?! fill-opacity)/g)].map(([, c]) => c ?? "");
    expect(colours.length).toBeGreaterThan(2);
    for (const ribbon of ["#ffffff", "#f3f3f3", "#262626", "#000000"])
      for (const colour of colours)
        expect(contrast(colour, ribbon), `${colour} of ${name} on ${ribbon}`).toBeGreaterThanOrEqual(3);
  }
});

test("a drawing has one weight of line, and its lines lie on whole pixels", () => {
  for (const { name, svg } of drawings) {
    const weights = [...svg.matchAll(/stroke-width="([\d.]+)"/g)].map(([, w]) => Number(w));
    expect(weights, name).toHaveLength(1);
    const [weight = 0] = weights;
    for (const [, path = ""] of svg.matchAll(/stroke="#\w{6}" d="([^"]+)"/g))
      for (const [, x, y, to = "", length] of path.matchAll(/M([\d.]+) ([\d.]+)([hv])([\d.]+)/g)) {
        const across = Number(to === "h" ? y : x) - weight / 2;
        const along = Number(to === "h" ? x : y);
        expect([across % 1, along % 1, Number(length) % 1], `${path} of ${name}`).toEqual([0, 0, 0]);
      }
  }
});
