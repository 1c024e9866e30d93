// Renders the PNG icons from the SVG sources beside them: npm run icons. A browser does it, because the tests need one
// anyway and every SVG renderer for Node brings a binary of its own.
import { readFile, writeFile } from "node:fs/promises";
import { startBrowser } from "../../tests/e2e/browser.js";
import { iconSizes } from "./manifest.js";

const icons = new URL("../excel/icons/", import.meta.url);

/**
 * Each source has its lines on whole pixels, so it serves its own size and multiples by whole or half numbers that keep
 * them there.
 */
const sourceOf = { 16: 16, 20: 20, 24: 24, 32: 32, 40: 20, 48: 24, 64: 32, 80: 32 } as const;

const browser = await startBrowser();
const page = await browser.newPage();
for (const size of iconSizes) {
  const svg = await readFile(new URL(`${sourceOf[size]}.svg`, icons), "utf8");
  await page.setViewportSize({ width: size, height: size });
  await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw;height:100vh}</style>${svg}`);
  await writeFile(new URL(`icon-${size}.png`, icons), await page.screenshot({ omitBackground: true }));
}
await browser.close();
