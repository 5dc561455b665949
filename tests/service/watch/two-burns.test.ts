// A second pit is lit at a site before the first is covered.

import { expect, it } from 'vitest';
import { startBurning, startForTest, TEN } from './start-burning.ts';
import { CREW, SITE } from './watched-demo.ts';

it('a pit that burns down is told of when its cover is due, though another was lit since, and not once it is covered', async () => {
  const demo = await startBurning();
  const { body } = await demo.api('GET', `${SITE}/burns?from=2026-04-14T00:00:00Z&to=2026-04-15T00:00:00Z`);
  const [first] = body['burns'] as { id: string }[];
  const taps = `${SITE}/burns/${first?.id}/taps`;
  expect((await demo.api('POST', taps, { tap: 'burning-down', by: 'Ana' })).status).toBe(201);
  demo.pass(5);
  await demo.reads();
  await demo.lights();
  await demo.minute();
  demo.heardBy(CREW);
  const heard: string[] = [];
  for (let i = 0; i < 6; i += 1) {
    demo.pass(10);
    await demo.reads({ fromDeg: 205 + 5 * (i % 3) });
    await demo.minute();
    heard.push(...demo.heardBy(CREW));
  }
  expect(heard).toEqual([expect.stringMatching(/it to be covered by 11:35 am/)]);
  expect((await demo.api('POST', taps, { tap: 'covered', by: 'Ana' })).status).toBe(201);
  for (let i = 0; i < 2; i += 1) {
    demo.pass(10);
    await demo.reads({ fromDeg: 205 + 5 * (i % 3) });
    await demo.minute();
  }
  expect(demo.heardBy(CREW)).toEqual([]);
});

it('a cover under the id of another tap is refused, and the pit is watched on', async () => {
  const demo = await startForTest(TEN);
  const one = await demo.lights();
  const two = await demo.lights();
  const tap = (burn: string, what: string, id: string) =>
    demo.api('POST', `${SITE}/burns/${burn}/taps`, { id, tap: what, by: 'Ana' });
  const shown = async (burn: string) => {
    const { body } = await demo.api('GET', `${SITE}/burns/${burn}`);
    return [body['closedAt'], (body['taps'] as { tap: string }[]).map(({ tap: what }) => what)];
  };
  expect((await tap(one, 'covered', 'cover-0001')).status).toBe(201);
  const ofAnother = await tap(two, 'covered', 'cover-0001');
  expect(ofAnother).toMatchObject({
    status: 409,
    body: {
      code: 'already_there',
      detail: expect.stringContaining(`"covered" of burn "${two}" was not kept`),
    },
  });
  // Taps of one instant stand in the order of their ids: this one comes after the light-up.
  demo.pass(1);
  expect((await tap(two, 'charging', 'charge-0001')).status).toBe(201);
  expect((await tap(two, 'covered', 'charge-0001')).status).toBe(409);
  expect(await shown(two)).toEqual([null, ['lit', 'charging']]);
  expect((await demo.api('POST', `${SITE}/burns`, { id: 'cover-0001', tap: 'lit' })).status).toBe(409);
  // The same again is the same tap, though it says no time and comes later.
  demo.pass(5);
  expect((await tap(one, 'covered', 'cover-0001')).status).toBe(200);
  expect((await demo.api('GET', `${SITE}/now`)).body['burn']).toMatchObject({ id: two });
});

it('a tap sent again is the one that is kept, though the clock went back meanwhile', async () => {
  const demo = await startForTest(TEN);
  const burn = await demo.lights();
  const cover = (at: string) =>
    demo.api('POST', `${SITE}/burns/${burn}/taps`, { id: 'cover-0001', tap: 'covered', by: 'Ana', at });
  demo.pass(30);
  const first = await cover('2026-04-14T17:20:00Z');
  demo.pass(-5);
  const again = await cover('2026-04-14T17:15:00Z');
  expect([first.status, again.status, again.body['closedAt']]).toEqual([201, 200, first.body['closedAt']]);
});
