import { readdirSync, readFileSync } from "node:fs";
import { builtinModules } from "node:module";
import { expect, test } from "vitest";

const root = new URL("../../", import.meta.url);
const text = (path: string): string => readFileSync(new URL(path, root), "utf8");

const { devDependencies, scripts } = JSON.parse(text("package.json")) as Record<
  "devDependencies" | "scripts",
  Record<string, string>
>;

const files = [
  ...["src/", "tests/", "examples/"].flatMap((folder) =>
    readdirSync(new URL(folder, root), { recursive: true, encoding: "utf8" })
      .filter((file) => /\.(ts|mjs|js)$/.test(file))
      .map((file) => folder + file),
  ),
  "webpack.config.ts",
  "vitest.config.ts",
  "eslint.config.mjs",
];

const all = files.map((file) => text(file)).join("\n");

/** Packages that some file imports or resolves. */
const imported = new Set(
  [
    ...all.matchAll(/^(?:import|export)\b[^;]*?from "([^"]+)"/gm),
    ...all.matchAll(/(?:^import |import\(|resolve\()"([^"]+)"/gm),
  ].map(([, path = ""]) =>
    path
      .split("/")
      .slice(0, path.startsWith("@") ? 2 : 1)
      .join("/"),
  ),
);

/** Used without being imported. */
const otherwise: Readonly<Record<string, string>> = {
  "@microsoft/office-js": "served to the page as it is",
  "@types/office-js": "names Office and Excel",
  "@types/custom-functions-runtime": "names CustomFunctions",
  "@types/node": "types of Node",
  "@types/cli-progress": "types of cli-progress",
  "@vitest/coverage-v8": "vitest loads it for npm run coverage",
  "esbuild-loader": "webpack loads it by name",
  "@stryker-mutator/core": "the command of npm run mutants",
  "@stryker-mutator/vitest-runner": "it loads this by name",
  "react-dom": "the sheet of the desk is made with it",
  react: "the sheet of the desk is made with it",
  rxjs: "the sheet of the desk is made with it",
};

test("every package is used: imported, named in a script, or with a reason", () => {
  const named = Object.values(scripts).join(" ");
  const unused = Object.keys(devDependencies).filter(
    (name) => !imported.has(name) && !(name in otherwise) && !new RegExp(`\\b${name}\\b`).test(named),
  );
  expect(unused).toEqual([]);
});

test("nothing is imported that package.json does not name", () => {
  const strange = [...imported].filter(
    (name) =>
      !(name in devDependencies) &&
      !name.startsWith(".") &&
      !builtinModules.includes(name) &&
      !/^(node|virtual):?/.test(name),
  );
  expect(strange).toEqual([]);
});

// What is bundled need not be installed by whoever installs the package.
test("nothing is asked for along with the package", () => {
  const asked = JSON.parse(text("package.json")) as Record<string, unknown>;
  for (const kind of ["dependencies", "peerDependencies", "optionalDependencies"])
    expect(asked).not.toHaveProperty(kind);
});

test("the lock file does not say where packages are downloaded from", () => {
  expect(text("package-lock.json")).not.toContain('"resolved": "http');
});
