// Builds dist/: npm run build for development, npm run build -- --origin https://host.example for people to use.
import { parseArgs } from "node:util";
import configurations from "../../webpack.config.js";
import { bundle } from "./bundle.js";
import { writeDist } from "./dist.js";
import { development, production } from "./release.js";

try {
  const { values } = parseArgs({ options: { origin: { type: "string" } } });
  const release = values.origin === undefined ? development : production(values.origin);
  await bundle(configurations);
  await writeDist(release);
} catch (e) {
  console.error(e instanceof Error ? e.message : e);
  process.exitCode = 1;
}
