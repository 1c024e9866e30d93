// What Excel and the command load. The desk is built by esbuild alone (src/build/desk.ts).
import { fileURLToPath } from "node:url";
import { EsbuildPlugin } from "esbuild-loader";
import webpack, { type Configuration } from "webpack";

const source = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

const common: Configuration = {
  mode: "production",
  devtool: false,
  resolve: {
    extensions: [".ts", ".js"],
    extensionAlias: { ".js": [".ts", ".js"] },
    // Its modules, of which only what is used gets into a bundle; what it offers itself comes whole.
    alias: { "ml-matrix$": source("node_modules/ml-matrix/src/index.js") },
  },
  module: {
    // Types are checked by "npm run check"; here they are only taken out.
    rules: [{ test: /\.ts$/, loader: "esbuild-loader", options: { target: "es2022" } }],
  },
  performance: { hints: false },
};

/** The cell functions: a classic script with one global, through which the host hands over the instruments. */
export const functions: Configuration = {
  ...common,
  name: "functions",
  target: ["web", "es2020"],
  entry: source("src/excel/functions.ts"),
  output: { path: source("dist"), filename: "functions.js", library: { name: "Gylesheet", type: "var" } },
};

/** What the task pane shows, and what ties it and the functions to Excel. */
export const pane: Configuration = {
  ...common,
  name: "pane",
  target: ["web", "es2020"],
  entry: source("src/excel/pane.ts"),
  output: { path: source("dist"), filename: "pane.js" },
};

/** The command, with all that it needs in it but the two files of the functions beside it. */
const recalc: Configuration = {
  ...common,
  name: "recalc",
  target: "node20",
  entry: source("src/recalc/program.ts"),
  // What is loaded only where a workbook needs it stands in files of its own beside the command.
  output: { path: source("dist"), filename: "recalc.cjs", chunkFilename: "recalc-[name].cjs" },
  node: { __dirname: false },
  optimization: {
    splitChunks: false,
    // Half the text to be read at each start; the names stay, for those who report a failure.
    minimizer: [
      new EsbuildPlugin({
        target: "node20",
        minify: false,
        minifyWhitespace: true,
        minifySyntax: true,
        keepNames: false,
      }),
    ],
  },
  plugins: [new webpack.BannerPlugin({ banner: "#!/usr/bin/env node", raw: true })],
};

export default [functions, pane, recalc];
