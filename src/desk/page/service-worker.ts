// Keeps the whole desk in the browser, so that it opens without a network once it has been opened with one. A list of files
// with one hash over them all needs nothing of the host: headers for caching could not be relied on, since the desk may be put
// on any. A new version is fetched in the background and used when no page of the old one is open any more, so that no
// page ever loads parts of another version than its own.

declare const FILES: readonly string[];
declare const VERSION: string;

/** What there is in a service worker besides what pages have. */
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
  // Not from the browser's own cache, which may hold an older version under the same address.
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
