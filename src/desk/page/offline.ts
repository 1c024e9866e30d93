/**
 * Has the browser keep the desk, so that it opens without a network from the second time on. Where it is served from this very
 * computer it is always there, and whoever works on it wants to see the newest.
 */
export async function keepOffline(): Promise<void> {
  const isHere = ["localhost", "127.0.0.1", "[::1]"].includes(location.hostname);
  if (isHere || !("serviceWorker" in navigator)) return;
  // Where it is refused, as in some private windows, the desk works as long as there is a network.
  await navigator.serviceWorker.register("service-worker.js").catch(() => undefined);
}
