// npm run excel:stop: undoes what npm run excel did. The certificate stays, for the next time.
import { setTimeout } from "node:timers/promises";
import { remembered, stillServes } from "./running.js";
import { undo } from "./undo.js";

const running = await remembered();
if (running === undefined) console.log("Nothing that npm run excel started is left.");
else {
  if (await stillServes(running)) {
    process.kill(running.pid);
    while (await stillServes(running)) await setTimeout(100);
    console.log("The add-in is not served any more.");
  }
  if (await undo(running)) console.log("Excel no longer knows it, from its next start on.");
  console.log("The certificate stays: npx office-addin-dev-certs uninstall takes it out.");
}
