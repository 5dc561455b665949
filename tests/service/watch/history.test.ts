// A past day as it was known then: plans in their order, the one that stood at a moment made again byte for byte, what was
// told, tapped, noticed and measured; as a page and as a record.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readCsv } from '../../publish/list/read-csv.ts';
import { partOf, wordsOf } from '../../publish/page/read-page.ts';
import { SITE, startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

const DAY = '2026-04-14';
const PATH = `/sites/north-block/history?day=${DAY}`;
let demo: WatchedDemo;
/** What GET /v1/sites/north-block/plan said at 10:40 that day. */
let at1040: Record<string, string | null> = {};
let burn = '';

const at = (clock: string): void => {
  demo.clock.nowMs = Date.parse(`${DAY}T${clock}:00-07:00`);
};
const get = async (url: string) => (await demo.service.app.inject({ url })).body;

beforeAll(async () => {
  demo = await startWatchedDemo('2026-04-13T23:50:00Z');
  demo.pass(16);
  await demo.minute();
  at('04:46');
  await demo.service.keeper.pullAll();
  await demo.minute();
  // What is planned at a pull goes by the alerts that were read before it.
  for (const clock of ['09:00', '09:40']) {
    at(clock);
    await demo.service.keeper.pullAll();
  }
  at('10:00');
  await demo.reads();
  burn = await demo.lights();
  await demo.minute();
  at('10:40');
  at1040 = (await demo.api('GET', `${SITE}/plan?day=${DAY}`)).body as typeof at1040;
  for (let i = 0; i < 5; i += 1) {
    demo.pass(5);
    await demo.reads({ fromDeg: 290, mph: 20 });
    await demo.minute();
  }
  const tapped = { tap: 'charging', by: 'Ana', at: `${DAY}T10:20:00-07:00`, id: 'tap-charging-01' };
  expect((await demo.api('POST', `${SITE}/burns/${burn}/taps`, tapped)).status).toBeLessThan(300);
  const corrected = {
    ...tapped,
    id: 'tap-charging-02',
    at: `${DAY}T10:25:00-07:00`,
    corrects: tapped.id,
  };
  expect((await demo.api('POST', `${SITE}/burns/${burn}/taps`, corrected)).status).toBeLessThan(300);
  at('12:00');
  await demo.limits([{ element: 'windSpeed', atMost: { hold: '1 mph' }, source: 'a later rule' }]);
  await demo.service.keeper.pullAll();
  demo.clock.nowMs += 30 * 3_600_000;
}, 60_000);
afterAll(() => demo.close());

describe('the page of a past day', () => {
  it('says what stood at a moment, as the API said it then, and that it is the same byte for byte', async () => {
    const page = await get(`${PATH}&at=10:40`);
    const known = partOf(page, '<h2>As known at 10:40 am</h2>', '<h2>Plans of this day</h2>');
    expect(known).toContain(String(at1040['text']));
    const times = partOf(page, '<ol class="times known">', '</ol>');
    const clock = (instant: string | null | undefined) => {
      const [, hour = '', minute = ''] = /T(\d\d):(\d\d)/.exec(String(instant)) ?? [];
      return `${Number(hour) % 12 || 12}:${minute} ${Number(hour) < 12 ? 'am' : 'pm'}`;
    };
    expect(times.replaceAll(/\s+/g, ' ').trim()).toBe(
      `Light-up from ${clock(at1040['lightUp'])} Last charge ${clock(at1040['lastCharge'])} Covered by ${clock(at1040['coveredBy'])}`,
    );
    expect(known).toContain('the same byte for byte');
    expect(known).not.toContain('a later rule');
  });

  it('goes by the dawn where no time is chosen, and by what stood later where one is', async () => {
    expect(wordsOf(await get(PATH))).toContain('As known at 4:45 am');
    const noon = partOf(await get(`${PATH}&at=12:30`), '<h2>As known at 12:30 pm', '<h2>Plans of');
    expect(noon).toContain('HOLD');
    expect(noon).toContain('a later rule');
    expect((await demo.service.app.inject({ url: `${PATH}&at=25:00` })).statusCode).toBe(400);
  });

  it('lists every plan that the store has of that day, in order, with what moved', async () => {
    const kept = await demo.store.plans.within('own/north-block', 0, Number.MAX_SAFE_INTEGER, 1000);
    const of = kept.filter(
      ({ summary, madeAtMs }) =>
        madeAtMs < Date.parse('2026-04-15T00:00:00-07:00') &&
        (summary as { date: string }[]).some(({ date }) => date === DAY),
    );
    const table = (await get(PATH)).split('<h2>Plans of this day</h2>')[1]?.split('</table>')[0] ?? '';
    const rows = table.split('<tr>').slice(2).map(wordsOf);
    expect(rows).toHaveLength(of.length);
    expect(of.length).toBeGreaterThan(2);
    expect(rows[0]).toContain('first plan of this day');
    for (const [i, { basis }] of of.entries()) expect(rows[i]).toContain(basis.document.slice(0, 12));
    expect(rows.join(' ')).toContain('verdict GO → HOLD');
  });

  it('has the texts in the words that were sent, to whom, and what became of them', async () => {
    const told = partOf(await get(PATH), '<h2>What was told</h2>', '<h2>What the crew tapped');
    for (const { text } of demo.gateway.texts.filter(({ to }) => to === '+15550100001'))
      expect(told).toContain(text);
    expect(told).toMatch(/Mon, Apr 13, 5:06 pm GO Evening text/);
    expect(told).toMatch(/4:46 am GO Dawn text .*ana \(text\): sent 4:46 am/);
  });

  it('has each tap with when it was tapped and when it came, and corrections as such', async () => {
    const taps = partOf(await get(PATH), '<h2>What the crew tapped</h2>', '<h2>Notices</h2>');
    expect(taps).toMatch(/Lit 10:00 am, received 10:00 am by Ana/);
    expect(taps).toMatch(/Charging 10:20 am, received 11:05 am by Ana, api \(replaced later\)/);
    expect(taps).toMatch(/Charging 10:25 am, received 11:05 am by Ana, api \(corrects an earlier tap\)/);
  });

  it('has notices as they were raised and what was measured against the limits of that day', async () => {
    const page = await get(`${PATH}&at=10:40`);
    const notices = partOf(page, '<h2>Notices</h2>', '<h2>What was observed</h2>');
    expect(notices).toMatch(/STOP raised : .*wind/);
    const observed = page.split('<h2>What was observed</h2>')[1] ?? '';
    const rows = observed.split('<tr>').slice(2);
    expect(rows).toHaveLength(6);
    expect(wordsOf(rows[0] ?? '')).toContain('10:00 am mast SSW (210°) 8 mph 11 mph 45 %');
    expect(rows[0]).not.toMatch(/class="(over1|over2)"/);
    // 20 mph over a stop of 15 mph, 23 mph over a hold of 20 mph.
    expect(rows[1]).toMatch(/<td class="over2">20 mph<\/td><td class="over1">23 mph<\/td>/);
    expect(wordsOf(rows[1] ?? '')).toContain('limit of: our rule');
  });

  it('says so of a day of which nothing is known, and of one that is longer ago than anything is kept', async () => {
    const unknown = wordsOf(await get('/sites/north-block/history?day=2026-03-01'));
    expect(unknown).toContain("CAN'T SAY Nothing is known of this day.");
    expect(unknown).not.toContain('are kept for');
    const gone = wordsOf(await get('/sites/north-block/history?day=2019-03-01&lang=es'));
    expect(gone).toContain('NO SE SABE No se sabe nada de este día.');
    expect(gone).toContain('Los planes se guardan 400 días; este día es más antiguo.');
    expect(gone).toContain('Marcas, textos y avisos se guardan 1,826 días; este día es más antiguo.');
  });

  it('says so where what a plan was made from is kept no more, or another program made it', async () => {
    const { service, store } = demo;
    const other = { ...store.documents, read: () => Promise.resolve(null) };
    const { createHistoryDesk } = await import('#service/history-desk.ts');
    const config = { store: { keepPlansDays: 400, keepBurnsDays: 1826, keepObservationsDays: 400 } };
    const desk = createHistoryDesk({
      store: { plans: store.plans, documents: other },
      mirror: service.mirror,
      source: {
        read: () => {
          throw new Error('nothing is read');
        },
      },
      config: config as never,
      program: 'x',
    });
    const atMs = Date.parse(`${DAY}T10:40:00-07:00`);
    expect(await desk.knownAt('own/north-block', DAY, atMs)).toMatchObject({
      rebuilt: 'not-kept',
      plan: null,
    });
    expect(await desk.knownAt('own/north-block', '2026-03-01', atMs)).toBeNull();
  });

  it('is linked from the page of the day', async () => {
    expect(await get(`/sites/north-block?day=${DAY}`)).toContain(
      `href="/sites/north-block/history?day=${DAY}"`,
    );
  });
});

it('the record is the same as a table, in the order of its moments', async () => {
  const response = await demo.service.app.inject({ url: `/sites/north-block/history.csv?day=${DAY}` });
  expect(response.headers['content-disposition']).toBe(`attachment; filename="north-block-${DAY}.csv"`);
  const [head = [], ...rows] = readCsv(response.body);
  const records = rows.map((row) => Object.fromEntries(head.map((name, i) => [name, row[i] ?? ''])));
  const times = records.map(({ at: moment }) => Date.parse(moment ?? ''));
  expect(times).toEqual(times.toSorted((a, b) => a - b));
  const kinds = new Set(records.map(({ record }) => record));
  expect([...kinds].sort()).toEqual(['notice', 'observation', 'plan', 'tap', 'told']);
  expect(records.filter(({ record }) => record === 'tap').map(({ what, counts }) => [what, counts])).toEqual([
    ['lit', 'yes'],
    ['charging', 'no'],
    ['charging', 'yes'],
  ]);
  const observed = records.filter(({ record }) => record === 'observation');
  const api = (
    await demo.api('GET', `${SITE}/observations?from=2026-04-14T00:00:00Z&to=2026-04-15T07:00:00Z`)
  ).body['observations'] as Record<string, unknown>[];
  expect(observed.map((row) => [row['at'], row['wind_speed_mps'], row['gust_mps']])).toEqual(
    api.map((o) => [o['observedAt'], String(o['windSpeedMps']), String(o['gustMps'])]),
  );
});
