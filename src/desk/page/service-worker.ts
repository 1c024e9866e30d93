// Stores the whole desk in the browser, so that it opens without a network once it has been opened with one. A list of
// files with one hash over all of them needs nothing from the host; cache headers would not be reliable, because the
// desk can be served from anywhere. A new version is fetched in the background and used once no page of the old one is
// open, so that no page loads parts of another version.

declare const FILES: readonly string[];
declare const VERSION: string;

/** What a service worker's global scope has and a page's has not. */
interface Scope {
  readonly registration: ServiceWorkerRegistration;
  addEventListener(type: "install" | "activate", listener: (event: Lasting) => void): void;
  addEventListener(type: "fetch", listener: (event: Asking) => void): void;
}
interface Lasting {
  waitUntil(work: Promise<unknown>): void;
}
interface Asking {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

const worker = globalThis as unknown as Scope;
const prefix = "gylesheet-desk-";
const cacheName = prefix + VERSION;
const base = worker.registration.scope;
const known = new Map(FILES.map((file) => [new URL(file, base).href, file]));

worker.addEventListener("install", (event) => {
  // Bypasses the browser's own cache, which may hold an older version under the same address.
  const files = FILES.map((file) => new Request(new URL(file, base), { cache: "reload" }));
  event.waitUntil(caches.open(cacheName).then((cache) => cache.addAll(files)));
});

worker.addEventListener("activate", (event) => {
  const dropOlder = async (): Promise<void> => {
    for (const other of await caches.keys())
      if (other.startsWith(prefix) && other !== cacheName) await caches.delete(other);
  };
  event.waitUntil(dropOlder());
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  const page = new URL("index.html", base).href;
  const wanted = url.href === base ? page : url.href;
  if (request.method !== "GET" || !known.has(wanted)) return;
  const answer = async (): Promise<Response> =>
    (await (await caches.open(cacheName)).match(wanted)) ?? fetch(request);
  event.respondWith(answer());
});
