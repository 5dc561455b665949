// The worker: pages from the network, and where that does not answer within four seconds the copy, marked as one before
// anything else. No page is kept beforehand, and none is given for fresh. It also sends taps when signal is back.

declare const VERSION: string;
declare const NO_COPY: Readonly<Record<'en' | 'es', string>>;

const worker = self as unknown as ServiceWorkerGlobalScope;
const CACHE = `pitward-${VERSION}`;
const TIMEOUT_MS = 4000;
/** When it was asked for, by the phone's clock: only what passed since then counts. */
const KEPT_AT = 'x-pitward-kept';

worker.addEventListener('install', () => void worker.skipWaiting());
worker.addEventListener('activate', (event) => event.waitUntil(takeOver()));

async function takeOver(): Promise<void> {
  await dropOldCaches();
  await worker.clients.claim();
}

async function dropOldCaches(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(
    names.filter((n) => n.startsWith('pitward-') && n !== CACHE).map((n) => caches.delete(n)),
  );
}

worker.addEventListener('sync', (event) => {
  const sync = event as ExtendableEvent & { tag: string };
  // Not done: the browser tries again by itself.
  if (sync.tag === 'pitward-taps')
    sync.waitUntil(sendTaps().then((isDone) => (isDone ? undefined : Promise.reject(new Error('later')))));
});

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== location.origin) return;
  if (request.method === 'POST' && url.pathname === '/sign-out') {
    event.respondWith(fetch(request));
    event.waitUntil(forgetPages());
  } else if (request.method !== 'GET') {
    if (request.mode === 'navigate') event.respondWith(fetch(request).catch(() => noCopy(url)));
  } else if (url.pathname.startsWith('/s/')) event.respondWith(fromCacheFirst(request));
  else if (request.mode === 'navigate') event.respondWith(pageFor(event));
  // A page that asks for itself must learn that nobody answers.
  else if (request.headers.get('accept') === 'text/html') event.respondWith(fromNetwork(event));
});

async function fromCacheFirst(request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(request);
  if (kept) return kept;
  const response = await fetch(request);
  if (response.ok) await cache.put(request, response.clone());
  return response;
}

async function fromNetwork(event: FetchEvent): Promise<Response> {
  const askedMs = Date.now();
  // Past what the browser keeps by itself, which would pass for just heard.
  const response = await fetch(event.request, { cache: 'no-store' });
  const { url } = event.request;
  const kept = response.clone();
  // One after the other: whose pages they are is looked up and written by each.
  keeping = keeping.then(() => keepPage(url, kept, askedMs)).catch(() => {});
  event.waitUntil(keeping);
  return response;
}

let keeping: Promise<void> = Promise.resolve();

async function pageFor(event: FetchEvent): Promise<Response> {
  const network = fromNetwork(event);
  const answered = network.then((response) => (isGateway(response) ? null : response)).catch(() => null);
  // What comes late is kept all the same.
  event.waitUntil(answered);
  const late = new Promise<null>((resolve) => setTimeout(() => resolve(null), TIMEOUT_MS));
  const response = await Promise.race([answered, late]);
  if (response !== null) return response;
  const copy = await copyOf(event.request.url);
  return copy ?? (await answered) ?? noCopy(new URL(event.request.url));
}

/** What stands between us and the server answers for it: it is not there. */
const isGateway = ({ status }: Response): boolean => status === 502 || status === 504;

/** Only pages that say when they were written and whose they are. */
async function keepPage(url: string, response: Response, askedMs: number): Promise<void> {
  const isPage = response.headers.get('content-type')?.startsWith('text/html') ?? false;
  if (response.status !== 200 || !isPage) return;
  const text = await response.text();
  const [, reader] = /<body data-now="\d+"[^>]* data-reader="([^"]*)"/.exec(text) ?? [];
  if (reader === undefined) return;
  if ((await factOf('reader')) !== reader) {
    await forgetPages();
    await keepFact('reader', reader);
  }
  const headers = new Headers(response.headers);
  headers.set(KEPT_AT, String(askedMs));
  const cache = await caches.open(CACHE);
  await cache.put(addressOf(url), new Response(text, { headers }));
  await keepFact('clock', Date.now());
  // The worker before this one may have had something in hand when it was replaced.
  await dropOldCaches();
  // The server answers: what waits goes out, whichever page was asked for.
  if ((await waitingTaps()).length > 0) await sendTaps();
}

/** The name of the place on a page, and that a reading was kept just now, are of that one visit. */
function addressOf(address: string): string {
  const url = new URL(address);
  url.hash = '';
  url.searchParams.delete('kept');
  return url.href;
}

async function forgetPages(): Promise<void> {
  const cache = await caches.open(CACHE);
  for (const request of await cache.keys())
    if (!new URL(request.url).pathname.startsWith('/s/')) await cache.delete(request);
}

async function copyOf(url: string): Promise<Response | null> {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(addressOf(url));
  if (!kept) return null;
  const age = await ageOf(Number(kept.headers.get(KEPT_AT)));
  const headers = new Headers(kept.headers);
  headers.delete('content-length');
  return new Response(marked(await kept.text(), age), { headers });
}

/** Null where the phone's clock was set back since it was last looked at. */
async function ageOf(keptMs: number): Promise<number | null> {
  const nowMs = Date.now();
  const lastMs = Number((await factOf('clock').catch(() => null)) ?? 0);
  if (nowMs < keptMs || nowMs < lastMs) return null;
  await keepFact('clock', nowMs).catch(() => null);
  return nowMs - keptMs;
}

/** Says that it is a copy and how old, and withdraws its go where that is over: for a page without script, too. */
function marked(html: string, ageMs: number | null): string {
  const [body = ''] = /<body [^>]*>/.exec(html) ?? [];
  const dataOf = (name: string): string => new RegExp(` data-${name}="([^"]*)"`).exec(body)?.[1] ?? '';
  const voidAt = dataOf('void');
  const isVoid = voidAt !== '' && (ageMs === null || Number(dataOf('now')) + ageMs >= Number(voidAt));
  const minutes = Math.floor((ageMs ?? 0) / 60_000);
  const length = minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
  const told = ageMs === null ? dataOf('unknown') : dataOf('old').replace('{}', length);
  return html
    .replace('<html ', `<html class="copy${isVoid ? ' void' : ''}" data-copy="${ageMs ?? 'unknown'}" `)
    .replace('<b class="copy-age"></b>', `<b class="copy-age">${told}</b>`);
}

function noCopy(url: URL): Response {
  const lang = url.searchParams.get('lang') ?? worker.navigator.language.slice(0, 2);
  const headers = {
    'content-type': 'text/html; charset=utf-8',
    'content-security-policy': "default-src 'none'; style-src 'unsafe-inline'",
  };
  return new Response(NO_COPY[lang === 'es' ? 'es' : 'en'], { status: 503, headers });
}
