import type { Page } from "playwright-core";

type Role = Parameters<Page["getByRole"]>[0];

/** More stops than any screen has. */
const MOST_STOPS = 80;

/** Goes on by the Tab key until a control has the focus. @throws if it cannot be reached */
export async function tabTo(page: Page, role: Role, name: string | RegExp): Promise<void> {
  const target = page.getByRole(role, { name, ...(typeof name === "string" ? { exact: true } : {}) });
  await target.first().waitFor();
  // Found once: looking for roles takes longer than a key.
  const found = await target.elementHandles();
  for (let i = 0; i < MOST_STOPS; i++) {
    await page.keyboard.press("Tab");
    const isThere = await page.evaluate(
      (elements) => elements.some((element) => element === document.activeElement),
      found,
    );
    if (isThere) return;
  }
  throw new Error(`The Tab key does not lead to ${role} ${String(name)}.`);
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
