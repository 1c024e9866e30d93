// npm run pictures: the desk as README shows it, from the season of the invented brewery.
import { fileURLToPath } from "node:url";
import { serveDesk } from "../../src/build/serve-desk.js";
import { startBrowser } from "../../tests/e2e/browser.js";
import { becomes, goTo, isOpen, type } from "../../tests/e2e/desk-session.js";

const [browser, { server, port }] = await Promise.all([startBrowser(), serveDesk()]);
const page = await browser.newPage({ viewport: { width: 1280, height: 620 } });
const picture = async (name: string): Promise<void> => {
  await page.waitForTimeout(500); // the sheet draws when the browser has time
  await page.screenshot({ path: fileURLToPath(new URL(`${name}.png`, import.meta.url)) });
};

await page.goto(`http://localhost:${port}/?file=season.xlsx`);
await isOpen(page, "season.xlsx");
for (const cell of ["C5", "J5"]) await goTo(page, "Season", cell);
await picture("desk-season");

const pane = page.frameLocator("#pane");
await type(page, "Season", "D7", "n/a");
await becomes(page, "Season!J7", ([row]) => row?.[0] === "#VALUE!");
await goTo(page, "Season", "J7");
await pane.getByRole("button", { name: /^Starting glass/ }).click();
await pane.getByRole("button", { name: /^Calibrate/ }).click();
await picture("desk-error");

await browser.close();
server.close();
