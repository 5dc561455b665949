// Taps of the glance as its script takes them: kept and sent once, and where they cannot be kept the form goes by itself.

import { describe, expect, it } from 'vitest';
import { openWindow, type Sent } from './invented-window.ts';

const tapsOf = (sent: readonly Sent[]) => sent.filter(({ url }) => url.endsWith('/burns'));

describe('a tap', () => {
  it('is kept on the phone and sent, and the form does not go beside it', async () => {
    const window = openWindow('glance');
    await window.settled();
    const press = window.press('lit');
    await window.settled();
    expect(press).toEqual({ isPrevented: true, formSent: 0 });
    expect(tapsOf(window.sent)).toHaveLength(1);
    expect(window.shown('queue')).toContain('1 waits: lit.');
    expect(window.database.stores.taps.size).toBe(1);
  });

  // W3C Secure Contexts: over plain http to another host there are neither locks nor ids nor a worker.
  it.each([
    ['over plain http', { isSecure: false }],
    ['without locks', { without: 'locks' }],
    ['without ids', { without: 'randomUUID' }],
    ['without a database', { without: 'indexedDB' }],
  ] as const)('goes as the form goes where it cannot be kept: %s', async (_name, is) => {
    const window = openWindow('glance', is);
    await window.settled();
    for (const value of ['lit', 'seen']) expect(window.press(value).isPrevented).toBe(false);
    await window.settled();
    expect(tapsOf(window.sent)).toEqual([]);
  });
});

describe('a glance over plain http', () => {
  it('asks for itself anew, and does not say that the server is silent when it answers', async () => {
    const window = openWindow('glance', { isSecure: false, answer: () => ({ status: 200, body: '1' }) });
    window.showAgain();
    await window.settled();
    expect(window.sent).not.toEqual([]);
    expect(window.shown('lost')).toBe('');
  });
});

describe('a fault of the database', () => {
  it.each(['facts', 'taps'] as const)(
    'after a tap was kept sends no form beside it: in %s',
    async (store) => {
      const window = openWindow('glance');
      await window.settled();
      let isKept = false;
      window.database.fails = (where, step) => {
        const fails = isKept && where === store;
        isKept ||= where === 'taps' && step === 'put';
        return fails;
      };
      const press = window.press('lit');
      await window.settled();
      expect([press.formSent, window.database.stores.taps.size]).toEqual([0, 1]);
      // What waits is sent with the id that it was kept with.
      window.database.fails = () => false;
      window.press('seen');
      await window.settled();
      const ids = tapsOf(window.sent).map(({ init }) => JSON.parse(init.body ?? '{}').id);
      expect(new Set(ids).size).toBe(1);
    },
  );

  it.each([1, 2])('while two answers are kept keeps none, and the form goes once: at put %i', async (nth) => {
    const window = openWindow('glance');
    await window.settled();
    window.database.fails = (store, step, n) => store === 'taps' && step === 'put' && n === nth;
    const press = window.press('seen');
    await window.settled();
    expect(press).toEqual({ isPrevented: true, formSent: 1 });
    expect(window.database.stores.taps.size).toBe(0);
    expect(window.sent.filter(({ url }) => url.endsWith('/answers'))).toEqual([]);
  });
});
