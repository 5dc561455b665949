// What a phone keeps, asked of its browser and set back in time. No test in here.

import type { Page } from 'playwright-core';

/** What is asked of the page's window; the program itself knows none. */
interface Phone {
  readonly caches: {
    keys(): Promise<string[]>;
    open(name: string): Promise<{
      keys(): Promise<{ url: string }[]>;
      match(url: string): Promise<Kept | undefined>;
      put(url: string, response: unknown): Promise<void>;
    }>;
  };
  readonly navigator: { serviceWorker: { controller: object | null } };
  fetch(url: string, init: object): Promise<unknown>;
  readonly Response: new (body: string, init: object) => unknown;
}
interface Kept {
  text(): Promise<string>;
  readonly headers: Iterable<[string, string]>;
}

export const cacheNames = (page: Page): Promise<string[]> =>
  page.evaluate(() => (globalThis as unknown as Phone).caches.keys());

/** The page, and the scripts that it takes, by a worker that sees to this page. */
export const isKept = (page: Page, url: string): Promise<boolean> =>
  page.evaluate(async (wanted) => {
    const { caches, navigator } = globalThis as unknown as Phone;
    if (navigator.serviceWorker.controller === null) return false;
    for (const name of await caches.keys()) {
      const cache = await caches.open(name);
      const urls = (await cache.keys()).map((request) => request.url);
      if (urls.includes(wanted) && urls.some((one) => one.includes('/s/'))) return true;
    }
    return false;
  }, url);

/** Asks for a page anew through the worker; when, by the phone's clock. */
export const askAgain = (page: Page, url: string): Promise<number> =>
  page.evaluate(async (wanted) => {
    const askedAtMs = Date.now();
    await (globalThis as unknown as Phone).fetch(wanted, { headers: { accept: 'text/html' } });
    return askedAtMs;
  }, url);

/** When the copy was asked for that is kept, by the phone's clock; 0: none is. */
export const keptAt = (page: Page, url: string): Promise<number> =>
  page.evaluate(async (wanted) => {
    const { caches } = globalThis as unknown as Phone;
    for (const name of await caches.keys()) {
      const kept = await (await caches.open(name)).match(wanted);
      if (kept) return Number(Object.fromEntries(kept.headers)['x-pitward-kept']);
    }
    return 0;
  }, url);

/** Makes what is kept so much older, by the phone's clock. */
export const makeOlder = (page: Page, ms: number): Promise<void> =>
  page.evaluate(async (older) => {
    const { caches, Response } = globalThis as unknown as Phone;
    for (const name of await caches.keys()) {
      const cache = await caches.open(name);
      for (const { url } of await cache.keys()) {
        const kept = await cache.match(url);
        const headers = Object.fromEntries(kept?.headers ?? []);
        const keptAt = headers['x-pitward-kept'];
        if (!kept || keptAt === undefined) continue;
        headers['x-pitward-kept'] = String(Number(keptAt) - older);
        await cache.put(url, new Response(await kept.text(), { headers }));
      }
    }
  }, ms);
