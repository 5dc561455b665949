// The list of sites as an office uses it: exceptions first with what to do, what changed since the evening text, who has
// seen what, filters that stay in the address, the whole as a file, and each key its own sites alone.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readCsv } from '../../publish/list/read-csv.ts';
import { wordsOf } from '../../publish/page/read-page.ts';
import { type Keyed, startKeyed } from '../keyed.ts';
import { CREW, startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

const HEAD = /<h2><a href="\/sites\/([^"?]+)/g;
const idsOn = (body: string): string[] => [...body.matchAll(HEAD)].map((m) => m[1] ?? '');

/** A table by its header. */
const recordsOf = (text: string): Record<string, string>[] => {
  const [head = [], ...rows] = readCsv(text);
  return rows.map((row) => Object.fromEntries(head.map((name, i) => [name, row[i] ?? ''])));
};

describe('a pit that burns, its crew and its texts', () => {
  let demo: WatchedDemo;
  const get = async (url: string) => (await demo.service.app.inject({ url })).body;
  const northOn = async (url = '/') => wordsOf((await get(url)).split('<ul class="rows sites">')[1] ?? '');
  beforeAll(async () => {
    // 16:50 at the site; the evening text goes out at 17:05.
    demo = await startWatchedDemo('2026-04-13T23:50:00Z');
  });
  afterAll(() => demo.close());

  it('says that nothing was told, then how far the evening text came, and counts no change', async () => {
    expect(await northOn()).toContain('Crew has seen: Nothing was told of late.');
    demo.pass(16);
    await demo.minute();
    expect(demo.heardBy(CREW)).toHaveLength(1);
    const row = await northOn();
    expect(row).toMatch(/Crew has seen: Evening text 5:06 pm: 2 of 2 sent \(Ana 5:06 pm; Ben 5:06 pm\)/);
    expect(wordsOf(await get('/'))).toContain('0 changed since Mon, Apr 13, 5:06 pm');
  });

  it('counts a day that is another than the evening text told, leads to it, and says what it was', async () => {
    await demo.limits([{ element: 'windSpeed', atMost: { hold: '1 mph' }, source: '=our rule' }]);
    await demo.service.keeper.pullAll();
    expect(wordsOf(await get('/'))).toContain('1 changed since Mon, Apr 13, 5:06 pm');
    expect(idsOn(await get('/?show=changed'))).toEqual(['north-block']);
    const row = await northOn('/?show=changed');
    expect(row).toContain('Not as the evening text said: was GO, now HOLD. See that the crew knows.');
    expect(row).toContain('Changed since the evening text: light-up 9:00 am → none;');
    const [record] = recordsOf(await get('/sites.csv?show=changed&day=tomorrow'));
    expect(record).toMatchObject({
      site: 'north-block',
      date: '2026-04-14',
      verdict: 'hold',
      light_up: '',
      needs: 'verdict-changed',
      crew_told: 'evening',
    });
    expect(record?.['changed_since_evening']?.split(' ')).toContain('verdict');
    expect(record?.['tightest_source'], 'no formula').toBe("'=our rule");
  });

  it('puts a fire under a stop before all, with the reason and what to do; an answer is shown with its time', async () => {
    demo.clock.nowMs = Date.parse('2026-04-14T17:00:00Z');
    await demo.limits([
      { element: 'windSpeed', atMost: { hold: '12 mph', stop: '15 mph' }, source: 'our rule' },
    ]);
    await demo.service.keeper.pullAll();
    await demo.reads();
    await demo.lights();
    await demo.minute();
    for (let i = 0; i < 6; i += 1) {
      demo.pass(5);
      await demo.reads({ fromDeg: 290, mph: 10 });
      await demo.minute();
    }
    const now = (await demo.api('GET', '/v1/sites/north-block/now')).body;
    expect(now['verdict']).toBe('stop');
    const row = await northOn();
    expect(row).toContain(`A fire is open under STOP. ${now['text']} Call the crew: put it down and cover.`);
    expect(row).toMatch(/Nobody has answered\. .* Call the crew\./);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    const after = await northOn();
    expect(after).toMatch(/Crew has seen: Notice [^:]+:\d\d am: 1 of \d seen \(Ana 10:\d\d am/);
    expect(after).not.toContain('Nobody has answered');
    const [record] = recordsOf(await get('/sites.csv?show=burning'));
    expect(record).toMatchObject({ site: 'north-block', burn_state: 'lit', crew_told: 'notice' });
    expect(record?.['needs']?.split(' ')).toContain('burn-stop');
    expect(Number(record?.['crew_seen_count'])).toBe(1);
  });
});

describe('each key', () => {
  let keyed: Keyed;
  beforeAll(async () => {
    keyed = await startKeyed('2026-03-03T01:10:00Z');
  });
  afterAll(() => keyed.close());
  const get = async (url: string, key: string) => {
    const headers = { authorization: `Bearer ${key}` };
    return keyed.service.app.inject({ url, headers });
  };

  it('sees, counts and downloads its own sites alone', async () => {
    const two = await keyed.mint({ sites: ['north-block', 'creek-block'] });
    const none = await keyed.mint({ organisation: 'elsewhere' });
    const page = (await get('/', two)).body;
    expect(idsOn(page).sort()).toEqual(['creek-block', 'north-block']);
    const counts = wordsOf(/<section aria-label="Sites by verdict">.*?<\/section>/s.exec(page)?.[0] ?? '');
    const today = /Today (.*) Tomorrow/.exec(counts)?.[1] ?? '';
    expect([...today.matchAll(/\d+/g)].reduce((sum, [n]) => sum + Number(n), 0)).toBe(2);
    expect(
      recordsOf((await get('/sites.csv', two)).body)
        .map(({ site }) => site)
        .sort(),
    ).toEqual(['creek-block', 'north-block']);
    expect(idsOn((await get('/?q=ridge', two)).body)).toEqual([]);
    expect(idsOn((await get('/', none)).body)).toEqual([]);
    expect(recordsOf((await get('/sites.csv', none)).body)).toEqual([]);
  });

  it('the file says of each site what the API says of its day', async () => {
    const key = await keyed.mint();
    for (const [query, units] of [
      ['day=tomorrow', 'us'],
      ['day=tomorrow&units=si&lang=es', 'si'],
    ] as const) {
      const response = await get(`/sites.csv?${query}`, key);
      expect(response.headers['content-type']).toBe('text/csv; charset=utf-8; header=present');
      expect(response.headers['content-disposition']).toMatch(/^attachment; filename="sites-tomorrow-/);
      for (const record of recordsOf(response.body)) {
        const plan = (await get(`/v1/sites/${record['site']}/plan?${query}`, key)).json();
        expect(record).toMatchObject({
          name: plan.name,
          date: plan.day,
          verdict: plan.cannotSay ? 'cannot-say' : plan.verdict,
          light_up: plan.lightUp ?? '',
          last_charge: plan.lastCharge ?? '',
          covered_by: plan.coveredBy ?? '',
          tightest_element: plan.tightest?.element ?? '',
          tightest_value: String(plan.tightest?.value ?? ''),
          tightest_bound: String(plan.tightest?.bound ?? ''),
          tightest_unit: plan.tightest?.unit ?? '',
          forecast_made_at: plan.madeAt,
        });
        expect(plan.units).toBe(units);
      }
    }
  });

  it('filters by GET alone, keeps what was chosen, and refuses what it does not know', async () => {
    const key = await keyed.mint();
    const page = (await get('/?q=&verdict=stop&day=tomorrow&show=&look=night&lang=es', key)).body;
    expect(idsOn(page)).toEqual(['ridge-block']);
    expect(page).toContain('<option value="stop" selected>');
    expect(page).toContain('<input type="hidden" name="look" value="night">');
    expect(page).toContain('<input type="hidden" name="lang" value="es">');
    expect(page).not.toContain('<script');
    expect(idsOn((await get('/?q=permit+26-021', key)).body)).toEqual(['ridge-block']);
    for (const bad of ['verdict=perhaps', 'day=2026-03-03', 'show=all', 'page=0', 'colour=red'])
      expect([bad, (await get(`/?${bad}`, key)).statusCode]).toEqual([bad, 400]);
  });
});
