/**
 * Keeps a version's browser workbook in the browser, so that it opens without a network. Each file is taken in only with the
 * checksum that it had when the version was made; one that differs keeps the whole version out. Nothing but the listed files
 * is answered, and nothing outside of the version's own folder. On `latest` a newer version is taken in beside the one in use
 * and is shown when all its pages have been closed.
 */

/** SHA-256 of each file by its path in the folder, as in an `integrity` attribute without its first word. */
declare const FILES: Readonly<Record<string, string>>;
declare const VERSION: string;

interface Worker {
  readonly registration: { readonly scope: string };
  readonly clients: { claim(): Promise<void> };
  addEventListener(type: 'install' | 'activate', listener: (event: Waiting) => void): void;
  addEventListener(type: 'fetch', listener: (event: Asking) => void): void;
}
interface Waiting {
  waitUntil(done: Promise<unknown>): void;
}
interface Asking {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

const worker = globalThis as unknown as Worker;
const { scope } = worker.registration;
const OF_THIS_FOLDER = `rodsheet ${scope} `;
const CACHE = `${OF_THIS_FOLDER}${VERSION}`;
const AT_ONCE = 6;

worker.addEventListener('install', (event) => event.waitUntil(takeAll()));
worker.addEventListener('activate', (event) => event.waitUntil(forgetOlder().then(() => worker.clients.claim())));
worker.addEventListener('fetch', (event) => {
  const file = event.request.method === 'GET' ? fileAt(event.request.url) : undefined;
  if (file !== undefined) event.respondWith(answer(file, event.request));
});

/** The listed file that an address asks for; a folder's is its index.html. */
function fileAt(url: string): string | undefined {
  const { origin, pathname } = new URL(url);
  const address = origin + pathname;
  if (!address.startsWith(scope)) return undefined;
  const path = address.slice(scope.length);
  const file = path.endsWith('/') ? `${path}index.html` : path;
  return Object.hasOwn(FILES, file) ? file : undefined;
}

async function takeAll(): Promise<void> {
  const cache = await caches.open(CACHE);
  const open = Object.entries(FILES);
  const take = async (): Promise<void> => {
    for (let next = open.pop(); next; next = open.pop()) {
      const [file, sum] = next;
      const address = new URL(file, scope);
      const response = await fetch(address, { integrity: `sha256-${sum}`, cache: 'no-cache' });
      if (!response.ok) throw new Error(`${file}: ${response.status}`);
      // Made anew: a page cannot be opened with an answer that was sent on from another address.
      const type = response.headers.get('Content-Type') ?? '';
      await cache.put(address, new Response(await response.blob(), { headers: { 'Content-Type': type } }));
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, take));
}

async function forgetOlder(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(
    names.filter((name) => name.startsWith(OF_THIS_FOLDER) && name !== CACHE).map((name) => caches.delete(name)),
  );
}

async function answer(file: string, request: Request): Promise<Response> {
  const kept = await caches.open(CACHE).then((cache) => cache.match(new URL(file, scope)));
  return kept ?? fetch(request);
}
