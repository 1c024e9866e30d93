// The command as a program of its own: dist/recalc.cjs, which stands beside the functions bundle.
import { main } from "./main.js";

void main(process.argv.slice(2), __dirname).then((status) => {
  process.exitCode = status;
});
