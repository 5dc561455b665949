// How old a page takes itself to be when it is opened: what nobody knows to be fresh says no go.

import { describe, expect, it } from 'vitest';
import { NOON_MS, openWindow, type WindowIs } from './invented-window.ts';

// Resource Timing (W3C): transferSize is 0 for what came from the browser's own cache. Navigation Timing: back_forward.
const BACK = { type: 'back_forward' };
const OWN_CACHE = { transferSize: 0 };

describe.each(['day', 'glance'] as const)('a page of the %s', (kind) => {
  it.each<[string, WindowIs, boolean]>([
    ['from the network', {}, false],
    ['from the network, anew', { navigation: { type: 'reload' } }, false],
    ['from the store of the browser', { navigation: OWN_CACHE }, true],
    ['by the way back', { navigation: BACK }, true],
    ['by the way back, by the worker', { hasWorker: true, navigation: BACK }, false],
    ['by the worker', { hasWorker: true, navigation: OWN_CACHE }, false],
    ['by the worker, a copy', { hasWorker: true, copyMs: 60_000, navigation: BACK }, false],
    ['by the worker, an old copy', { hasWorker: true, copyMs: 600_000 }, true],
  ])('that came %s', (_name, is, isVoid) => {
    expect(openWindow(kind, is).isVoid()).toBe(isVoid);
  });
});

describe('a glance of unknown age', () => {
  it('asks past the store of the browser, and is good again when the server has answered', async () => {
    const answer = () => ({ status: 200, body: '1' });
    const window = openWindow('glance', { navigation: BACK, answer });
    expect(window.isVoid()).toBe(true);
    window.showAgain();
    await window.settled();
    const [asked] = window.sent.filter(({ url }) => url.endsWith('/now'));
    expect([asked?.init.cache, window.isVoid()]).toEqual(['no-store', false]);
  });
});

describe('an answer', () => {
  const MINUTE = 60_000;

  it.each([
    ['before its go is over', 9, false],
    ['when its go is over', 10, true],
  ])('that was four minutes on the way is as old as its question: %s', async (_name, min, isVoid) => {
    let isFirst = true;
    const window = openWindow('glance', {
      answer: ({ url }, pass) => {
        if (!isFirst || !url.endsWith('/now')) return { status: 503 };
        isFirst = false;
        pass(4 * MINUTE);
        return { status: 200, body: String(NOON_MS) };
      },
    });
    window.showAgain();
    await window.settled();
    window.pass((min - 4) * MINUTE);
    window.showAgain();
    expect(window.isVoid()).toBe(isVoid);
  });

  it('counts from when the page was asked for, not from when its first byte came', () => {
    const late = { navigation: { fetchStart: 0, responseStart: 240_000 } };
    const window = openWindow('day', { ...late, openMs: 240_000 });
    window.pass(6 * MINUTE);
    window.showAgain();
    expect(window.isVoid()).toBe(true);
  });
});
