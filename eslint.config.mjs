import tseslint from "typescript-eslint";

// The house: a folder may import from those below it and from itself, never sideways or up.
/** @type {Readonly<Record<string, readonly string[]>>} */
export const below = {
  core: [],
  cells: [],
  instruments: ["core", "cells"],
  functions: ["core", "instruments", "cells"],
  formulas: ["instruments", "cells"],
  help: ["core", "instruments", "functions", "formulas", "cells"],
  library: ["core", "functions"],
  changes: ["cells"],
  workbook: ["instruments", "cells"],
  engine: ["functions", "formulas", "workbook", "instruments", "cells"],
  check: ["engine", "functions", "formulas", "workbook", "instruments", "core", "cells"],
  handover: ["engine", "functions", "formulas", "workbook", "instruments", "core", "cells"],
  pane: ["check", "handover", "changes", "functions", "instruments", "core", "cells"],
  worker: ["check", "handover", "engine", "workbook", "functions", "formulas", "instruments", "cells"],
  recalc: [
    "check",
    "changes",
    "handover",
    "engine",
    "workbook",
    "functions",
    "formulas",
    "instruments",
    "cells",
  ],
  excel: ["worker", "handover", "functions", "pane", "formulas", "instruments", "cells"],
  desk: ["worker", "handover", "engine", "workbook", "functions", "pane", "formulas", "instruments", "cells"],
};
const folders = Object.keys(below);

/** Everything that a folder may not import from. */
function above(folder) {
  return [...folders, "build"].filter((name) => name !== folder && !below[folder].includes(name));
}

/** How files in a folder, and those in its rooms, say what lies beside the folder: rooms may have the names of folders. */
const depths = [
  ["*", "\\.\\./"],
  ["*/*", "\\.\\./\\.\\./"],
];

/** Least squares and matrices: what of the core's mathematics others keep better. They ship in the functions bundle. */
const numerics = ["ml-levenberg-marquardt", "ml-matrix"];

/** What a folder may import types of, and nothing that ships: the pane has its host do what they do, through ports. */
const typesOnly = { pane: ["functions", "check", "handover"] };

/** Only these may know that there is a spreadsheet program, a page or a file system. */
const page = ["document", "window", "navigator", "location"];
const hosts = {
  excel: ["Excel", "Office", "CustomFunctions", ...page],
  pane: page,
  desk: [...page, "fetch", "indexedDB", "sessionStorage"],
  recalc: ["process"],
};
const hostGlobals = [
  "Excel",
  "Office",
  "CustomFunctions",
  ...page,
  "process",
  "localStorage",
  "sessionStorage",
  "indexedDB",
  "fetch",
];

export default tseslint.config(
  { ignores: ["dist/", "node_modules/", "coverage/"] },
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      "@typescript-eslint/restrict-template-expressions": [
        "error",
        { allowNumber: true, allowBoolean: true },
      ],
      "@typescript-eslint/switch-exhaustiveness-check": "error",
      eqeqeq: ["error", "always"],
      "no-console": "error",
    },
  },
  ...folders.flatMap((folder) =>
    depths.map(([inside, up]) => ({
      files: [`src/${folder}/${inside}.ts`],
      rules: {
        "no-restricted-imports": [
          "error",
          {
            patterns: [
              {
                regex: `^${up}(${above(folder).join("|")})/`,
                message: `src/${folder} may import only from ${[...below[folder], "itself"].join(", ")}.`,
              },
              ...(folder === "core"
                ? [
                    {
                      regex: `^(?!(${numerics.join("|")})$)[^.]`,
                      message: `src/core imports nothing but itself and ${numerics.join(", ")}.`,
                    },
                  ]
                : []),
              ...(["recalc"].includes(folder)
                ? []
                : [{ regex: "^node:", message: "Only src/recalc may use the file system." }]),
            ],
          },
        ],
        "@typescript-eslint/no-restricted-imports": [
          "error",
          {
            patterns: (typesOnly[folder] ?? []).map((name) => ({
              regex: `^${up}${name}/`,
              allowTypeImports: true,
              message: `src/${folder} may import only types from ${name}.`,
            })),
          },
        ],
        "no-restricted-globals": [
          "error",
          ...hostGlobals.filter((name) => !(hosts[folder] ?? []).includes(name)),
        ],
      },
    })),
  ),
  { files: ["**/*.mjs", "tests/e2e/*.js"], ...tseslint.configs.disableTypeChecked },
  { files: ["src/recalc/**", "src/build/**", "tests/**", "examples/**"], rules: { "no-console": "off" } },
);
