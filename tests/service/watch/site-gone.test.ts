// A pit burns on at a site that is not in force any more, such as one that was taken out by an older version.

import { expect, it } from 'vitest';
import { unplacedBurns } from '#publish/api/unplaced-burns.ts';
import { thisMachine } from '#publish/viewer.ts';
import { burnOf } from '../../builders/watch-records.ts';
import { wordsOf } from '../../publish/page/read-page.ts';
import { startBurning } from './start-burning.ts';
import type { WatchedDemo } from './watched-demo.ts';

async function takesOut({ store, service, clock }: WatchedDemo): Promise<void> {
  const { organisation } = service.desk;
  const site = { organisation, kind: 'site', id: 'north-block', body: null } as const;
  const by = { origin: 'api', changedBy: 'office', changedAtMs: clock.nowMs } as const;
  const [current] = await store.definitions.history(site);
  await store.definitions.change([{ ...site, ...by, replaces: current?.revision ?? 0 }]);
  await service.mirror.sync();
}

const ask = async (demo: WatchedDemo, lang = 'en') =>
  (await demo.api('GET', `/v1/smoke-sources?at=36.48,-120.2&lang=${lang}`)).body;
const board = async (demo: WatchedDemo, lang = 'en') =>
  wordsOf((await demo.service.app.inject({ url: `/board?lang=${lang}` })).body);

it('no smoke is found not to be of it: it cannot be excluded, and its place is not made up', async () => {
  const demo = await startBurning();
  await takesOut(demo);
  const { covers, cannotExclude, outside } = await ask(demo);
  expect([covers, outside]).toEqual([[], []]);
  const unplaced = { at: null, distanceM: null, bearing: null, backBearing: null, smoke: null };
  expect(cannotExclude).toMatchObject([
    {
      ...{ site: 'north-block', state: 'lit', why: 'no-place', ...unplaced },
      text: 'Its site is not in force here any more: nobody can say where it lies.',
    },
  ]);
  expect((await ask(demo, 'es'))['cannotExclude']).toMatchObject([
    { text: 'Su sitio ya no está vigente aquí: nadie puede decir dónde queda.' },
  ]);
});

it('the board counts it, says since when it burns, and that nobody watches it', async () => {
  const demo = await startBurning();
  expect(await board(demo)).not.toContain('nobody watches this pit');
  await takesOut(demo);
  const words = await board(demo);
  expect(words).toContain('1 pit burns now');
  expect(words).not.toContain('No pit burns.');
  expect(words).toMatch(
    /north-block: Lit, since .*\. Its site is not in force here any more: nobody watches this/,
  );
  expect(await board(demo, 'es')).toContain('nadie vigila esta fosa');
});

it('is told to whom its site was told, and to nobody else', () => {
  const burns = [burnOf('b1', { site: 'own/creek' }), burnOf('b2', { site: 'own-2/creek' })];
  const seenBy = (sites: readonly string[] | null, known: string[] = []) =>
    unplacedBurns({ ...thisMachine('own'), sites }, burns, new Map(known.map((key) => [key, 0])));
  expect(seenBy(null)).toEqual([{ site: 'creek', burn: burns[0] }]);
  expect(seenBy(['creek'])).toHaveLength(1);
  expect(seenBy(['north'])).toEqual([]);
  expect(seenBy(null, ['own/creek'])).toEqual([]);
});
