// The pane's style sheet: its own rules, and the Fluent tokens that they use in a light and a dark form.
import { createDarkTheme, createLightTheme, type BrandVariants, type Theme } from "@fluentui/tokens";

/** Our own accent from dark to light, which suits Fluent's greys without copying anyone's brand. */
const accent: BrandVariants = {
  10: "#011816",
  20: "#03231f",
  30: "#06302b",
  40: "#083d37",
  50: "#0a4a43",
  60: "#0c584f",
  70: "#0d665c",
  80: "#107468",
  90: "#2a8d80",
  100: "#4aa598",
  110: "#5fb0a4",
  120: "#76bab0",
  130: "#86bdb5",
  140: "#a4ccc6",
  150: "#c3dcd8",
  160: "#e1edeb",
};

function variables(theme: Theme, used: readonly string[]): string {
  return used.map((name) => `--${name}:${valueOf(theme, name)}`).join(";");
}

function valueOf(theme: Theme, name: string): string | number {
  const value = (theme as Readonly<Record<string, string | number | undefined>>)[name];
  if (value === undefined) throw new Error(`The style sheet uses --${name}, which is no Fluent token.`);
  return value;
}

/** @param rules with var(--token) for every colour and size that Fluent has */
export function styleSheet(rules: string): string {
  const used = [...new Set([...rules.matchAll(/var\(--(\w+)\)/g)].map(([, name = ""]) => name))].sort();
  const light = createLightTheme(accent);
  const dark = createDarkTheme(accent);
  const differing = used.filter((name) => valueOf(light, name) !== valueOf(dark, name));
  return `:root{color-scheme:light;${variables(light, used)}}
@media (prefers-color-scheme:dark){:root:not([data-theme=light]){color-scheme:dark;${variables(dark, differing)}}}
:root[data-theme=dark]{color-scheme:dark;${variables(dark, differing)}}
${rules}`;
}
