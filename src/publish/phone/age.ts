// How old this page is, and when its go is void. By the server's clock: the time in the page, and what has passed since by
// the steady clock. The phone's own clock can only make a page older, never younger: a phone that slept counts too.

/** What the server wrote last, and when it was asked for that: it cannot have been written before. */
interface Heard {
  serverMs: number;
  steadyMs: number;
  wallMs: number;
}

const MINUTE = 60_000;
const root = document.documentElement;

/** Null: of unknown age. A copy was `data-copy` ms old when the worker gave it. */
let heard: Heard | null = firstHeard();

function firstHeard(): Heard | null {
  const { now = '' } = document.body.dataset;
  const { copy } = root.dataset;
  if (copy === 'unknown') return null;
  const [navigation] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[];
  if (navigation !== undefined && isOfOwnCache(navigation)) return null;
  const sinceMs = performance.now() - (navigation?.fetchStart ?? 0);
  return {
    serverMs: Number(now) + Number(copy ?? 0),
    steadyMs: performance.now() - sinceMs,
    wallMs: Date.now() - sinceMs,
  };
}

/** The browser may have given an old page by itself; the worker never does. */
function isOfOwnCache({ type, transferSize }: PerformanceNavigationTiming): boolean {
  if (navigator.serviceWorker?.controller) return false;
  return type === 'back_forward' || transferSize === 0;
}

const clocks = (): Omit<Heard, 'serverMs'> => ({ steadyMs: performance.now(), wallMs: Date.now() });

function heardAt(serverMs: number, asked: Omit<Heard, 'serverMs'>): void {
  heard = { serverMs, ...asked };
}

/** The server's clock now; null where nobody knows. */
function serverNow(): number | null {
  if (heard === null) return null;
  return heard.serverMs + Math.max(performance.now() - heard.steadyMs, Date.now() - heard.wallMs, 0);
}

function lengthText(ms: number): string {
  const min = Math.max(0, Math.floor(ms / MINUTE));
  const hours = Math.floor(min / 60);
  if (hours === 0) return `${min} min`;
  return min % 60 === 0 ? `${hours} h` : `${hours} h ${min % 60} min`;
}

function showAges(): void {
  const now = serverNow();
  const { void: voidAt = '', now: written = '', old = '', unknown = '' } = document.body.dataset;
  if (voidAt !== '' && (now === null || now >= Number(voidAt))) root.classList.add('void');
  for (const span of document.querySelectorAll<HTMLElement>('[data-at]')) {
    const { at = '', words = '', ahead } = span.dataset;
    if (now === null) span.textContent = '?';
    else {
      const isAhead = ahead !== undefined && Number(at) > now;
      span.textContent = (isAhead ? ahead : words).replace('{}', lengthText(Math.abs(now - Number(at))));
    }
  }
  for (const place of document.querySelectorAll('.copy-age'))
    place.textContent = now === null ? unknown : old.replace('{}', lengthText(now - Number(written)));
}

showAges();
setInterval(showAges, 5000);
document.addEventListener('visibilitychange', showAges);
addEventListener('pageshow', showAges);
