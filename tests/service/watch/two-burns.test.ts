// A second pit is lit at a site before the first is covered.

import { expect, it } from 'vitest';
import { startBurning } from './start-burning.ts';
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
