/// <reference types="office-js" />

/** Tells the page's style whether Excel is dark. Where Excel does not say, the style goes by the browser. */
export function applyTheme(): void {
  const { officeTheme } = Office.context as Partial<Office.Context>;
  const isDark = officeTheme?.isDarkTheme;
  if (isDark !== undefined) document.documentElement.dataset["theme"] = isDark ? "dark" : "light";
}
