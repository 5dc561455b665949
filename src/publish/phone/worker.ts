// The worker: pages from the network, and where that does not answer within four seconds the copy, marked as one before
// anything else. No page is kept beforehand, and none is given for fresh. It also sends taps when signal is back.

declare const VERSION: string;
declare const NO_COPY: Readonly<Record<'en' | 'es', string>>;

const worker = self as unknown as ServiceWorkerGlobalScope;
const CACHE = `pitward-${VERSION}`;
const TIMEOUT_MS = 4000;
/** When it was asked for, by the phone's clock: only what passed since then counts. */
const KEPT_AT = 'x-pitward-kept';
/** Whose pages are kept. The worker alone writes it: pages write `reader`, before their own is kept. */
const KEPT_FOR = 'kept-for';

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
  if (request.method === 'POST' && /^\/sign-(in|out)(\/|$)/.test(url.pathname))
    event.respondWith(signedInOrOut(request, url));
  else if (request.method !== 'GET') {
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

/** What is kept is gone before the browser goes on to a page of whoever that is. */
async function signedInOrOut(request: Request, url: URL): Promise<Response> {
  // Who signs out is gone, though nobody answers; a sign-in that nobody answers changes nothing.
  if (url.pathname === '/sign-out') await forget();
  const response = await fetch(request).catch(() => null);
  if (response === null) return noCopy(url);
  await forget();
  return response;
}

async function fromNetwork(event: FetchEvent): Promise<Response> {
  const asked = { url: addressOf(event.request.url), n: ++questions, atMs: Date.now(), era };
  // Past what the browser keeps by itself, which would pass for just heard.
  const response = await fetch(event.request, { cache: 'no-store' });
  // The key was taken back, or has ended.
  if (response.status === 401) event.waitUntil(forget());
  else event.waitUntil(keepAnswer(asked, response.clone()).catch(() => {}));
  return response;
}

interface Question {
  readonly url: string;
  readonly n: number;
  readonly atMs: number;
  readonly era: number;
}

/** Another one when somebody may have signed in or out: what was asked for before that is not kept. */
let era = 0;
let questions = 0;
/** By address: the question to which the answer is that is kept. Clocks are set back; this is not. */
const keptOf = new Map<string, number>();
let keeping: Promise<void> = Promise.resolve();

/** One after the other: whose pages they are is looked up and written by each. */
function inTurn(work: () => Promise<void>): Promise<void> {
  keeping = keeping.then(work).catch(() => {});
  return keeping;
}

function forget(): Promise<void> {
  era += 1;
  return inTurn(forgetPages);
}

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

/** Only pages that say when they were written and whose they are. What the line takes its time for is done before its turn. */
async function keepAnswer(asked: Question, response: Response): Promise<void> {
  const isPage = response.headers.get('content-type')?.startsWith('text/html') ?? false;
  if (response.status !== 200 || !isPage) return;
  const text = await response.text();
  const reader = readerOf(text);
  if (reader === undefined) return;
  const headers = new Headers(response.headers);
  headers.set(KEPT_AT, String(asked.atMs));
  await inTurn(async () => {
    // Overtaken by the answer to a later question, it may say what that one took back.
    if (asked.era !== era || asked.n < (keptOf.get(asked.url) ?? 0)) return;
    await keepPage(asked.url, reader, new Response(text, { headers }));
    keptOf.set(asked.url, asked.n);
  });
  // The server answers: what waits goes out, whichever page was asked for.
  if ((await waitingTaps()).length > 0) await sendTaps();
}

async function keepPage(url: string, reader: string, page: Response): Promise<void> {
  if ((await factOf(KEPT_FOR)) !== reader) {
    await forgetPages();
    await keepFact(KEPT_FOR, reader);
  }
  if ((await factOf('reader')) !== reader) await keepFact('reader', reader);
  const cache = await caches.open(CACHE);
  await cache.put(url, page);
  await keepFact('clock', Date.now());
  // The worker before this one may have had something in hand when it was replaced.
  await dropOldCaches();
}

const readerOf = (html: string): string | undefined =>
  /<body data-now="\d+"[^>]* data-reader="([^"]*)"/.exec(html)?.[1];

/** The name of the place on a page, and that a reading was kept just now, are of that one visit. */
function addressOf(address: string): string {
  const url = new URL(address);
  url.hash = '';
  url.searchParams.delete('kept');
  return url.href;
}

async function forgetPages(): Promise<void> {
  // First: from here on none is given, though it could not be deleted.
  await keepFact(KEPT_FOR, null).catch(() => {});
  const cache = await caches.open(CACHE);
  for (const request of await cache.keys())
    if (!new URL(request.url).pathname.startsWith('/s/')) await cache.delete(request);
}

async function copyOf(url: string): Promise<Response | null> {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(addressOf(url));
  if (!kept) return null;
  const text = await kept.text();
  // Of somebody else, or nobody can tell whose.
  if (readerOf(text) !== (await factOf(KEPT_FOR).catch(() => null))) return null;
  const age = await ageOf(Number(kept.headers.get(KEPT_AT)));
  const headers = new Headers(kept.headers);
  headers.delete('content-length');
  return new Response(marked(text, age), { headers });
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
