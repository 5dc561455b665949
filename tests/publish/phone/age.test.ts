// How old a page takes itself to be when it is opened: what nobody knows to be fresh says no go.

import { describe, expect, it } from 'vitest';
import { openWindow, type WindowIs } from './invented-window.ts';

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
