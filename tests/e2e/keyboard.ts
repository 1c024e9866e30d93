import type { ElementHandle, Page } from "playwright-core";

type Role = Parameters<Page["getByRole"]>[0];

/** More stops than any screen has. */
const MOST_STOPS = 80;

/** Goes on by the Tab key until a control has the focus. @throws if it cannot be reached */
export async function tabTo(page: Page, role: Role, name: string | RegExp): Promise<void> {
  const target = page.getByRole(role, { name, ...(typeof name === "string" ? { exact: true } : {}) });
  await target.first().waitFor();
  // Found once: looking for roles takes longer than a key.
  const found = await target.elementHandles();
  const isThere = (): Promise<boolean> =>
    page.evaluate((elements) => elements.some((element) => element === document.activeElement), found);
  await pressTab(page, await stopsTo(page, found));
  for (let i = 0; i < MOST_STOPS; i++) {
    if (await isThere()) return;
    await pressTab(page, 1);
  }
  throw new Error(`The Tab key does not lead to ${role} ${String(name)}.`);
}

/** How often the Tab key must probably be pressed; whether that is right shows afterwards. */
const stopsTo = (page: Page, targets: readonly ElementHandle[]): Promise<number> =>
  page.evaluate((elements) => {
    const scope = document.querySelector("dialog[open]") ?? document;
    const stops = [...scope.querySelectorAll("a[href], button:enabled, input, select, textarea, summary")];
    const ahead = stops.filter((stop) => {
      const { activeElement } = document;
      if (!activeElement || activeElement === document.body) return stop.checkVisibility();
      const follows = activeElement.compareDocumentPosition(stop) & Node.DOCUMENT_POSITION_FOLLOWING;
      return follows !== 0 && stop.checkVisibility();
    });
    return Math.max(1, ahead.findIndex((stop) => elements.some((element) => element === stop)) + 1);
  }, targets);

/** Presses the Tab key, without waiting for the page in between. */
async function pressTab(page: Page, times: number): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const key = { key: "Tab", code: "Tab", windowsVirtualKeyCode: 9 };
  const events = Array.from({ length: times }, () => [
    session.send("Input.dispatchKeyEvent", { type: "rawKeyDown", ...key }),
    session.send("Input.dispatchKeyEvent", { type: "keyUp", ...key }),
  ]);
  await Promise.all(events.flat());
  await session.detach();
}

/** Presses a button that the Tab key leads to. */
export async function press(page: Page, name: string | RegExp): Promise<void> {
  await tabTo(page, "button", name);
  await page.keyboard.press("Enter");
}

/** Types into a field that the Tab key leads to, over what stands there. */
export async function type(page: Page, label: string | RegExp, text: string): Promise<void> {
  await tabTo(page, "textbox", label);
  await page.keyboard.press("Control+A");
  await page.keyboard.press("Delete");
  await page.keyboard.insertText(text);
}

/** Chooses from a list that the Tab key leads to, by the beginning of the choice. */
export async function choose(page: Page, label: string | RegExp, beginning: string): Promise<void> {
  await tabTo(page, "combobox", label);
  await page.keyboard.type(beginning);
}
