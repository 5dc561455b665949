// What the worker asks, keeps and gives, without a browser: never a page of the browser's own store for one just heard.

import { describe, expect, it } from 'vitest';
import { noSignal, pageFor, startWorker } from './invented-worker.ts';

const MINUTE = 60_000;
const DAY = '/sites/heron-bend-2';

describe('the worker', () => {
  // Fetch Standard, request's cache mode: with "default" and "force-cache" an older answer may come from the HTTP cache.
  it.each(['navigate', 'same-origin'])(
    'asks the server itself, past what the browser keeps: %s',
    async (mode) => {
      const worker = startWorker();
      const modes: unknown[] = [];
      worker.line = (_request, init) => {
        modes.push(init?.cache);
        return pageFor('reader-a');
      };
      await worker.ask({ url: DAY, mode }).done();
      expect(modes).toEqual(['no-store']);
    },
  );

  it('keeps pages that say whose they are, though the browser may keep none, and no others', async () => {
    const worker = startWorker();
    worker.line = (request) => pageFor(request.url.endsWith(DAY) ? 'reader-a' : null);
    for (const url of [DAY, '/sign-in', '/settings/site']) await worker.ask({ url }).done();
    expect(worker.kept()).toEqual([DAY]);
  });
});

describe('a copy', () => {
  it('is as old as its question, however long the answer was on the way and in the queue', async () => {
    const worker = startWorker();
    worker.line = () => {
      worker.pass(7 * MINUTE);
      return pageFor('reader-a');
    };
    await worker.ask({ url: DAY }).done();
    worker.pass(2 * MINUTE);
    worker.line = noSignal;
    const text = await (await worker.ask({ url: DAY }).answer)?.text();
    expect(text).toContain(`data-copy="${9 * MINUTE}"`);
  });
});

describe('an answer that was overtaken', () => {
  it('does not take the place of one to a later question: that may have withdrawn its go', async () => {
    const worker = startWorker();
    const sends: ((page: Response) => void)[] = [];
    worker.line = () => new Promise((resolve) => sends.push(resolve));
    const [first, second] = [worker.ask({ url: DAY }), worker.ask({ url: DAY, mode: 'cors' })];
    sends[1]?.(pageFor('reader-a', { 'x-which': 'later' }));
    await second.done();
    sends[0]?.(pageFor('reader-a', { 'x-which': 'earlier' }));
    await first.done();
    worker.line = noSignal;
    expect((await worker.ask({ url: DAY }).answer)?.headers.get('x-which')).toBe('later');
  });
});

describe('on a phone that several people use', () => {
  const NOW = '/sites/heron-bend-2/now';
  const textOf = async (answer: Promise<Response> | null) => (await answer)?.text();
  /** Somebody else's pages are there. */
  async function visited() {
    const worker = startWorker();
    worker.line = () => pageFor('reader-a');
    for (const url of [DAY, NOW]) await worker.ask({ url }).done();
    expect(worker.kept()).toEqual([DAY, NOW]);
    return worker;
  }

  it.each(['/sign-in', '/sign-in/pw_invented', '/sign-out'])(
    'no page is left when POST %s was answered, before the browser goes on',
    async (url) => {
      const worker = await visited();
      worker.line = () => new Response(null, { status: 303, headers: { location: '/' } });
      expect((await worker.ask({ url, method: 'POST' }).answer)?.status).toBe(303);
      expect(worker.kept()).toEqual([]);
      expect(worker.database.stores.facts.get('kept-for')).toBe(null);
    },
  );

  it('a sign-in that nobody answers takes no page from whoever is signed in; signed out is signed out', async () => {
    const worker = await visited();
    worker.line = noSignal;
    expect((await worker.ask({ url: '/sign-in', method: 'POST' }).answer)?.status).toBe(503);
    expect(worker.kept()).toEqual([DAY, NOW]);
    await worker.ask({ url: '/sign-out', method: 'POST' }).done();
    expect(worker.kept()).toEqual([]);
  });

  it.each(['navigate', 'cors'])(
    'no page is left when the server knows the reader no more: %s',
    async (mode) => {
      const worker = await visited();
      worker.line = () => new Response('who are you?', { status: 401 });
      await worker.ask({ url: DAY, mode }).done();
      expect(worker.kept()).toEqual([]);
    },
  );

  it('a page asked for by one and answered after another signed in is not kept', async () => {
    const worker = await visited();
    let send = (_page: Response): void => {};
    worker.line = () => new Promise((resolve) => (send = resolve));
    const late = worker.ask({ url: DAY });
    worker.line = () => new Response(null, { status: 303 });
    await worker.ask({ url: '/sign-in', method: 'POST' }).done();
    send(pageFor('reader-a'));
    await late.done();
    expect(worker.kept()).toEqual([]);
  });

  it('a slow answer that is still coming holds up nobody who signs in', async () => {
    const worker = await visited();
    const endless = new ReadableStream();
    worker.line = () => new Response(endless, { headers: { 'content-type': 'text/html' } });
    await worker.ask({ url: DAY }).answer;
    worker.line = () => new Response(null, { status: 303 });
    expect((await worker.ask({ url: '/sign-in', method: 'POST' }).answer)?.status).toBe(303);
    expect(worker.kept()).toEqual([]);
  });

  it('pages of one go when a page of another comes, whatever pages have written of themselves meanwhile', async () => {
    const worker = await visited();
    worker.database.stores.facts.set('reader', 'reader-b');
    worker.line = () => pageFor('reader-b');
    await worker.ask({ url: NOW }).done();
    expect(worker.kept()).toEqual([NOW]);
    worker.line = noSignal;
    expect(await textOf(worker.ask({ url: NOW }).answer)).toContain('of reader-b');
    expect(await textOf(worker.ask({ url: DAY }).answer)).not.toContain('reader-a');
  });

  it('a copy is given to the reader alone for whom pages are kept', async () => {
    const worker = await visited();
    worker.line = noSignal;
    expect(await textOf(worker.ask({ url: DAY }).answer)).toContain('of reader-a');
    worker.database.stores.facts.set('kept-for', 'reader-b');
    expect((await worker.ask({ url: DAY }).answer)?.status).toBe(503);
    worker.database.fails = () => true;
    expect((await worker.ask({ url: DAY }).answer)?.status).toBe(503);
  });

  it('what waits is sent as whoever is signed in, from pages without a script for it, too', async () => {
    const worker = await visited();
    worker.line = () => pageFor('reader-b');
    await worker.ask({ url: DAY }).done();
    expect(worker.database.stores.facts.get('reader')).toBe('reader-b');
  });
});
