// The package as someone gets it: packed, and installed where there is nothing else and no registry.
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { builtinModules } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openWorkbook } from "../../src/workbook/workbook.js";
import { batches } from "../bench/batches.js";
import { buildBook, sheetXml } from "../support/build-workbook.js";

const root = fileURLToPath(new URL("../../", import.meta.url));
const windows = process.platform === "win32";
const temporary = mkdtempSync(join(tmpdir(), "packed-"));
const folder = join(temporary, "empty");
const installed = join(folder, "node_modules", "gylesheet");

function npm(cwd: string, ...args: readonly string[]): string {
  const quiet = ["--offline", "--cache", join(temporary, "cache"), "--loglevel=error"];
  return execFileSync("npm", [...args, ...quiet], { cwd, encoding: "utf8", shell: windows });
}

/** Runs a program of the user's in the folder. @returns what it prints, as JSON */
function run(program: string): unknown {
  writeFileSync(join(folder, "program.mjs"), program);
  return JSON.parse(execFileSync(process.execPath, ["program.mjs"], { cwd: folder, encoding: "utf8" }));
}

beforeAll(() => {
  mkdirSync(folder);
  const [packed] = JSON.parse(npm(root, "pack", "--json", "--pack-destination", temporary)) as [
    { readonly filename: string },
  ];
  writeFileSync(join(folder, "package.json"), JSON.stringify({ private: true }));
  npm(folder, "install", "--no-audit", "--no-fund", join(temporary, packed.filename));
});

afterAll(() => {
  rmSync(temporary, { recursive: true, force: true });
});

const files = (): string[] =>
  readdirSync(installed, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => join(parentPath, name));

test("it brings nothing else along", () => {
  expect(readdirSync(join(folder, "node_modules")).filter((name) => !name.startsWith("."))).toEqual([
    "gylesheet",
  ]);
});

test("its scripts import only what is in it, and Node's own modules", () => {
  const all = new Set(files());
  const own = new Set(builtinModules.flatMap((name) => [name, `node:${name}`]));
  const scripts = [...all].filter((file) => /\.([cm]?js|ts)$/.test(file));
  const missing = scripts.flatMap((file) => {
    const { importedFiles } = ts.preProcessFile(readFileSync(file, "utf8"), true, true);
    return (
      importedFiles
        .map(({ fileName }) => fileName)
        // What webpack loads only where it is needed it names in two pieces; the workbook with LET below needs it.
        .filter((name) => name !== "./")
        .filter((name) => !own.has(name) && !all.has(join(dirname(file), name)))
        .filter((name) => !all.has(join(dirname(file), name.replace(/\.js$/, ".d.ts"))))
        .map((name) => `${file.slice(installed.length)}: ${name}`)
    );
  });
  expect(scripts.length).toBeGreaterThan(10);
  expect(missing).toEqual([]);
});

test("it has no tests, and no scripts that make something of the source", () => {
  const strange = files()
    .map((file) => file.slice(installed.length + 1).replaceAll("\\", "/"))
    .filter((file) => !/^dist\/(desk|library)\/|^(LICENSE|README\.md|package\.json)$/.test(file))
    .filter((file) => !/^dist\/(recalc\.cjs|recalc-interpreter\.cjs|LICENCES\.txt)$/.test(file))
    .filter((file) => !/^examples\/[\w-]+\.(xlsx|csv|json)$/.test(file));
  expect(strange).toEqual([]);
});

test("gylesheet-recalc runs there, on a workbook", async () => {
  writeFileSync(join(folder, "log.xlsx"), batches(3, 8));
  const command = join(folder, "node_modules", ".bin", `gylesheet-recalc${windows ? ".cmd" : ""}`);
  const said = execFileSync(command, ["log.xlsx"], { cwd: folder, encoding: "utf8", shell: windows });
  expect(said).toContain("24 formulas recalculated, 24 cells changed, 0 errors");
  const { model } = await openWorkbook(new Uint8Array(readFileSync(join(folder, "log.xlsx"))));
  const results = model.sheets[0]?.cells.filter(({ formula }) => formula).map(({ value }) => typeof value);
  expect(results).toEqual(Array<string>(24).fill("number"));
});

test("gylesheet-recalc has its interpreter with it, for what needs one", async () => {
  const rows = `<row r="1"><c r="A1"><f>_xlfn.LET(_xlpm.x,_xldudf_GYLE_CONVERT(12,"P","SG"),_xlpm.x*2)</f></c></row>`;
  writeFileSync(join(folder, "let.xlsx"), buildBook({ sheets: { Log: sheetXml(rows) } }));
  execFileSync(process.execPath, [join(installed, "dist", "recalc.cjs"), "let.xlsx"], { cwd: folder });
  const { model } = await openWorkbook(new Uint8Array(readFileSync(join(folder, "let.xlsx"))));
  // 12 °P is SG 1.0484 (NBS Circular C440, Table 114).
  expect(Number(model.sheets[0]?.cells[0]?.value) / 2).toBeCloseTo(1.0484, 3);
});

describe.each(["README.md", "src/library/README.md"])("programs that %s shows", (document) => {
  const text = readFileSync(`${root}${document}`, "utf8");
  const blocks = [...text.matchAll(/```js\n([^]*?)```/g)].map(([, block = ""]) => block);
  test("come to what stands beside them", () => {
    for (const block of blocks) {
      const beside = [...block.matchAll(/^const (\w+) = .*; \/\/ (-?[\d.]*\d)/gm)].map(
        ([, name = "", value = ""]) => [name, value] as const,
      );
      expect(beside.length).toBeGreaterThan(0);
      const names = beside.map(([name]) => name).join(", ");
      const values = run(`${block}\nconsole.log(JSON.stringify({ ${names} }));`) as Record<string, number>;
      const shown = beside.map(([name, value]) => [
        name,
        values[name]?.toFixed(value.split(".")[1]?.length ?? 0),
      ]);
      expect(shown).toEqual(beside);
    }
  });
});

test("there is such a program", () => {
  expect(readFileSync(`${root}src/library/README.md`, "utf8")).toContain('from "gylesheet"');
});

test("a program of Node's older kind may require it", () => {
  const program = `import { createRequire } from "node:module";
    console.log(JSON.stringify(Object.keys(createRequire(import.meta.url)("gylesheet"))));`;
  expect(run(program)).toContain("sgFromHydrometer");
});

/** What the compiler says of a program that uses the package. */
function complaints(program: string, moduleResolution: ts.ModuleResolutionKind): string[] {
  const file = join(folder, "program.ts");
  writeFileSync(file, program);
  const isNode = moduleResolution === ts.ModuleResolutionKind.NodeNext;
  const compiled = ts.createProgram([file], {
    strict: true,
    noEmit: true,
    types: [],
    lib: ["lib.es2022.d.ts"],
    skipDefaultLibCheck: true,
    target: ts.ScriptTarget.ES2022,
    module: isNode ? ts.ModuleKind.NodeNext : ts.ModuleKind.ESNext,
    moduleResolution,
  });
  return ts
    .getPreEmitDiagnostics(compiled)
    .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, "\n"));
}

describe.each([
  ["a bundler", ts.ModuleResolutionKind.Bundler],
  ["Node", ts.ModuleResolutionKind.NodeNext],
])("its types, as %s finds them", (_, kind) => {
  test("let through what is right, and nothing else", () => {
    const program = `import { sgFromHydrometer, type HydrometerOptions } from "gylesheet";
      const options: HydrometerOptions = { scale: "SG", calibrationC: 15.56 };
      export const right: number = sgFromHydrometer(1.046, 27, options);
      export const wrong: number = sgFromHydrometer("1.046", 27, options);`;
    expect(complaints(program, kind)).toEqual([
      "Argument of type 'string' is not assignable to parameter of type 'number'.",
    ]);
  });
});
