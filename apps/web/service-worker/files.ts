declare const self: ServiceWorkerGlobalScope;

/** What the build puts in the place of the name (`build/shell.ts`). */
declare const __SHELL__: {
  /** SHA-256 of the page. */
  readonly page: string;
  /** Addresses of what the first page and a builder's need. */
  readonly first: readonly string[];
  /** Of every file whose name holds a hash. */
  readonly all: readonly string[];
};

const { page: pageHash, first, all } = __SHELL__;
const cacheName = 'screens';
const page = '/';
/** Answers of the service are somebody's: they are kept by the pages, by account, never here. */
const ofService = /^\/(api|graphql)(\/|$)/;
/** A yard's network that is there and does not answer is as good as none. */
const patienceMs = 2_000;

/** Fetches what is missing of this version; the page comes last, when all that it names is there. */
export async function keepFirstFiles(): Promise<void> {
  const cache = await caches.open(cacheName);
  const known = new Set((await cache.keys()).map(({ url }) => new URL(url).pathname));
  await cache.addAll(first.filter((path) => !known.has(path)));
  const answer = await fetch(page, { cache: 'no-store', credentials: 'omit' });
  const bytes = await answer.clone().arrayBuffer();
  // Two versions are served at once while one takes the other's place: then another time.
  if ((await hashOf(bytes)) !== pageHash) throw new Error('the page is of another version');
  await cache.put(page, answer);
}

async function hashOf(bytes: ArrayBuffer): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Throws away what no page of this version names. */
export async function dropOldFiles(): Promise<void> {
  const wanted = new Set([page, ...all]);
  const cache = await caches.open(cacheName);
  for (const request of await cache.keys()) {
    if (!wanted.has(new URL(request.url).pathname)) await cache.delete(request);
  }
}

export function answer(event: FetchEvent): void {
  const { method, mode, url } = event.request;
  const { origin, pathname } = new URL(url);
  if (method !== 'GET' || origin !== self.location.origin || ofService.test(pathname)) return;
  if (mode === 'navigate') event.respondWith(pageFor(event));
  else if (pathname.startsWith('/assets/')) event.respondWith(fileFor(event.request));
}

/** The page as it is now; as it was, where the service cannot be reached. */
async function pageFor(event: FetchEvent): Promise<Response> {
  const fetched = newest(event);
  event.waitUntil(fetched.catch(() => undefined));
  const kept = await caches.match(page, { cacheName });
  if (kept === undefined) return fetched;
  const late = new Promise<undefined>((resolve) => setTimeout(resolve, patienceMs, undefined));
  const come = await Promise.race([fetched.catch(() => undefined), late]);
  return come === undefined || come.status >= 500 ? kept : come;
}

async function newest({ request, preloadResponse }: FetchEvent): Promise<Response> {
  const preloaded: unknown = await preloadResponse;
  return preloaded instanceof Response ? preloaded : fetch(request);
}

/** By its hash it is the same for ever. */
async function fileFor(request: Request): Promise<Response> {
  const cache = await caches.open(cacheName);
  const kept = await cache.match(request.url);
  if (kept !== undefined) return kept;
  const come = await fetch(request);
  if (come.ok) await cache.put(request.url, come.clone());
  return come;
}
