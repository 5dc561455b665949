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
