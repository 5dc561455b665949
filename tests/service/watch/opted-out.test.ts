// The roster of those who opted out, as the office reads it.

import { expect, it } from 'vitest';
import { startBurning } from './start-burning.ts';
import { CREW, type WatchedDemo } from './watched-demo.ts';

async function roster(demo: WatchedDemo): Promise<Record<string, unknown>> {
  const { body } = await demo.api('GET', '/v1/contacts');
  const rows = body['definitions'] as { readonly id: string; readonly optedOut: unknown }[];
  return Object.fromEntries(rows.map(({ id, optedOut }) => [id, optedOut]));
}

it('a contact who opted out is listed with the moment, the kind of address and their words, until they opt in', async () => {
  const demo = await startBurning();
  expect(await roster(demo)).toEqual({ ana: null, ben: null, office: null });
  const since = `${new Date(demo.clock.nowMs).toISOString().slice(0, 19)}Z`;
  expect(await demo.inbound(CREW, 'Stop')).toBe('opt-out');
  const told = await roster(demo);
  expect(told).toMatchObject({
    ana: { address: 'phone', words: expect.stringMatching(/^stop$/i) },
    ben: null,
  });
  expect(JSON.stringify(told)).not.toContain(CREW.slice(-7));
  const { since: at } = told['ana'] as { readonly since: string };
  expect(Date.parse(at)).toBe(Date.parse(since));
  await demo.inbound(CREW, 'START');
  expect((await roster(demo))['ana']).toBeNull();
});

it('an opt-out of an address holds for whoever has it now', async () => {
  const demo = await startBurning();
  const optOut = { organisation: 'own', contact: 'gone', address: CREW, optedOutAtMs: 0, word: 'END' };
  await demo.store.watch.commit([{ site: 'own/north-block', replaces: null, optOuts: [optOut] }]);
  expect(await roster(demo)).toMatchObject({ ana: { words: 'END' }, ben: null });
});
