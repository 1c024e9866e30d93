/**
 * Makes the browser store the desk, so that it opens without a network from the second time on. Not when it is served
 * from this computer: there it is always available, and its developer wants to see the newest version.
 */
export async function keepOffline(): Promise<void> {
  const isHere = ["localhost", "127.0.0.1", "[::1]"].includes(location.hostname);
  if (isHere || !("serviceWorker" in navigator)) return;
  // If the browser refuses, as in some private windows, the desk needs a network.
  await navigator.serviceWorker.register("service-worker.js").catch(() => undefined);
}
