/// <reference types="office-js" />

/** Applies Excel's light or dark theme to the page. If Excel does not report one, the page follows the browser. */
export function applyTheme(): void {
  const { officeTheme } = Office.context as Partial<Office.Context>;
  const isDark = officeTheme?.isDarkTheme;
  if (isDark !== undefined) document.documentElement.dataset["theme"] = isDark ? "dark" : "light";
}
