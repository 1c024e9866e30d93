// The command as a program: dist/recalc.cjs.
import { main } from "./main.js";

void main(process.argv.slice(2)).then((status) => {
  process.exitCode = status;
});
