// The list of sites says of each what GET /v1/sites/{id}/now says, with and without a fire.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readCsv } from '../../publish/list/read-csv.ts';
import { answerOf, hasWord, partOf, wordsOf } from '../../publish/page/read-page.ts';
import { readPdf } from '../../publish/sheet/read-pdf.ts';
import { type Running, startRunning } from '../running.ts';

const SITES = ['north-block', 'creek-block', 'ridge-block'];
const WORDS = { go: 'GO', hold: 'HOLD', stop: 'STOP' } as const;

/** The demo's three sites, each with an instrument. */
const withMasts = (yaml: string): string =>
  yaml.replaceAll(
    '      - { id: airfield, kind: nws, within: 5 mi, most: 1, period: 5 min }',
    '      - { id: mast, kind: posted, by: instrument, distance: 0 m, period: 5 min, height: 10 m, averaging: 2 min, reference: "true" }',
  );

let demo: Running;
const startAt = (when: string) => {
  beforeAll(async () => {
    demo = await startRunning(when, withMasts);
  });
  afterAll(() => demo.close());
};

async function post(url: string, payload: object): Promise<void> {
  const { statusCode } = await demo.service.app.inject({ method: 'POST', url, payload });
  expect(statusCode).toBeLessThan(300);
}

const reads = (site: string, { fromDeg = 210, gustMph = 11 } = {}): Promise<void> =>
  post(`/v1/sites/${site}/observations`, {
    station: 'mast',
    time: new Date(demo.clock.nowMs).toISOString(),
    windSpeed: '8 mph',
    windDirection: fromDeg,
    windGust: `${gustMph} mph`,
    relativeHumidity: '45 %',
  });

/** The day sheet, as a page and as a PDF. */
async function sheetsOf(site: string): Promise<{ page: string; pdf: string }> {
  const { body } = await demo.service.app.inject({ url: `/sites/${site}/sheet` });
  const { rawPayload } = await demo.service.app.inject({ url: `/sites/${site}/sheet.pdf` });
  return { page: partOf(body, '<div class="sheet', '<footer'), pdf: (await readPdf(rawPayload)).text };
}

/** What counts, filters and file say of a site today. */
async function foundAs(
  site: string,
): Promise<{ go: boolean; stop: boolean; file: string | undefined; goes: number }> {
  const of = async (url: string): Promise<string> => (await demo.service.app.inject({ url })).body;
  const shows = async (verdict: string): Promise<boolean> =>
    (await of(`/?day=today&verdict=${verdict}`)).includes(`<h2><a href="/sites/${site}"`);
  const [head = [], ...rows] = readCsv(await of('/sites.csv?day=today'));
  const counts = /<section aria-label="Sites by verdict">.*?<\/section>/s.exec(await of('/'))?.[0] ?? '';
  const [, goes] = /Today.*?GO\s*&nbsp;(\d+)/.exec(wordsOf(counts)) ?? [];
  return {
    go: await shows('go'),
    stop: await shows('stop'),
    file: rows.find((row) => row[head.indexOf('site')] === site)?.[head.indexOf('verdict')],
    goes: Number(goes),
  };
}

async function expectWithdrawn(site: string): Promise<void> {
  const now = await nowOf(site);
  expect(now.verdict).toBe('stop');
  const { page, pdf } = await sheetsOf(site);
  for (const text of [page, pdf]) {
    expect([hasWord(text, 'STOP'), hasWord(text, 'GO')]).toEqual([true, false]);
    expect(text.replaceAll(/\s/g, '')).toContain(now.text.replaceAll(/\s/g, ''));
    expect(text).not.toMatch(/9:00 am|12:30 pm/);
    expect(text).toContain('No fire on this sheet.');
  }
}

interface Now {
  readonly verdict: keyof typeof WORDS;
  readonly unknown: boolean;
  readonly text: string;
  readonly goodUntil: string;
  readonly burn: object | null;
}

const nowOf = async (site: string): Promise<Now> =>
  (await demo.service.app.inject({ url: `/v1/sites/${site}/now` })).json();

/** What the list says of a site: the word, and the words beside it. */
async function listed(site: string): Promise<{ word: string; text: string; today: string }> {
  const { body } = await demo.service.app.inject({ url: '/' });
  const row = body.split('<li><h2>').find((part) => part.includes(`/sites/${site}"`)) ?? '';
  const [, live = '', rest = ''] = /<dt>Now<\/dt><dd class="a">(.*?)<\/dd>(.*)/s.exec(row) ?? [];
  const textOf = (html: string) =>
    html
      .replaceAll(/<[^>]+>/g, ' ')
      .replaceAll('&#39;', "'")
      .replaceAll(/\s+/g, ' ')
      .trim();
  const [, word = ''] = /class="chip[^"]*">(.*?)<\/span>/s.exec(live) ?? [];
  return { word: textOf(word), text: textOf(live), today: textOf(rest.slice(rest.indexOf('Today'))) };
}

async function expectSame(): Promise<void> {
  for (const site of SITES) {
    const now = await nowOf(site);
    const { word, text } = await listed(site);
    expect([site, word]).toEqual([site, now.unknown ? "CAN'T SAY" : WORDS[now.verdict]]);
    expect(text).toContain(now.text);
  }
}

describe('the list of sites, where nothing burns', () => {
  startAt('2026-04-14T12:00:00Z');
  it.each([
    ['2026-04-14T13:00:00Z', 'before dawn'],
    ['2026-04-14T16:00:00Z', 'in the go of one'],
  ])('says the same at %s, %s', async (when) => {
    demo.clock.nowMs = Date.parse(when);
    await demo.service.keeper.pullAll();
    await expectSame();
  });

  it('says hold where it is too late to light, though charging would go on', async () => {
    // The latest light-up of the north block is 12:10, its last charge 12:30.
    demo.clock.nowMs = Date.parse('2026-04-14T19:15:00Z');
    await demo.service.keeper.pullAll();
    await reads('north-block');
    await expectSame();
    const now = await nowOf('north-block');
    expect(now).toMatchObject({ verdict: 'hold', planVerdict: 'hold', unknown: false, burn: null });
    expect(now.text).toBe('Too late to light. If lit: may charge until 12:30 pm.');
  });

  it.each([
    ['2026-04-14T22:30:00Z', 'in the afternoon'],
    ['2026-04-15T03:00:00Z', 'at night'],
  ])('says the same at %s, %s', async (when) => {
    demo.clock.nowMs = Date.parse(when);
    await demo.service.keeper.pullAll();
    await expectSame();
  });
});

describe('the list of sites, where a pit burns', () => {
  startAt('2026-04-14T17:00:00Z');
  it('says the same, marks it, and shows no go of the plan beside what was measured', async () => {
    await reads('north-block');
    await post('/v1/sites/north-block/burns', { tap: 'lit', by: 'Ana' });
    await expectSame();
    // Of one reading nobody can say whether the wind has turned.
    expect((await listed('north-block')).text).toMatch(
      /^CAN'T SAY Lit, since 10:00 am\. Cannot tell now: wind turn\./,
    );
    demo.clock.nowMs += 300_000;
    await reads('north-block', { fromDeg: 212 });
    await expectSame();
    expect((await listed('north-block')).text).toMatch(/^GO Lit, since 10:00 am\./);
    demo.clock.nowMs += 300_000;
    await reads('north-block', { gustMph: 30 });
    await expectSame();
    const { word, today } = await listed('north-block');
    expect([word, today.split(' ').includes('GO')]).toEqual(['STOP', false]);
    await expectWithdrawn('north-block');
  });

  it('and the page of a site where nothing burns says no go that a reading forbids', async () => {
    await reads('creek-block', { fromDeg: 100, gustMph: 31 });
    const now = await nowOf('creek-block');
    expect([now.verdict, now.burn]).toEqual(['stop', null]);
    await expectSame();
    const { body } = await demo.service.app.inject({ url: '/sites/creek-block' });
    expect(body).toMatch(/<h2>Now<\/h2><p><span class="chip stop">.*?STOP<\/span>[^<]*gust 31 mph/s);
  });
});

describe('where nothing burns, and the wind is measured beyond a stop within the go of the day', () => {
  startAt('2026-04-14T15:30:00Z');
  const page = async (url: string): Promise<string> => (await demo.service.app.inject({ url })).body;
  const titleOf = (body: string): string => /<title>(.*?)<\/title>/s.exec(body)?.[1] ?? '';
  const todayOf = (body: string): string => partOf(body, '<ul class="rows week">', '</li>');
  const voidOf = (body: string): number => Number(/data-void="(\d*)"/.exec(body)?.[1]);

  it('the day is told as it is before light-up, and what stands beside it', async () => {
    await page('/');
    await reads('north-block', { gustMph: 31 });
    const body = await page('/sites/north-block');
    expect(titleOf(body)).toContain('GO 9:00 am until 12:30 pm');
    expect(body).toMatch(/<h2>Now<\/h2><p><span class="chip stop">.*?STOP<\/span>/s);
    expect((await listed('north-block')).today).toMatch(/GO Light-up from 9:00 am/);
  });

  it('a go in force is no longer than what stands at the pit, on a copy of the page too', async () => {
    demo.clock.nowMs = Date.parse('2026-04-14T16:20:00Z');
    for (let i = 0; i < 3; i += 1) {
      await reads('north-block');
      demo.clock.nowMs += 300_000;
    }
    await reads('north-block');
    const now = await nowOf('north-block');
    expect(now).toMatchObject({ verdict: 'go', burn: null });
    const body = await page('/sites/north-block');
    expect(titleOf(body)).toContain('GO 9:00 am until 12:30 pm');
    expect(voidOf(body)).toBe(Date.parse(now.goodUntil));
    for (const text of Object.values(await sheetsOf('north-block')))
      expect([hasWord(text, 'GO'), text.includes('9:00 am'), text.includes('12:30 pm')]).toEqual([
        true,
        true,
        true,
      ]);
    expect((await listed('north-block')).today).toMatch(/GO Light-up from 9:00 am/);
    expect(await foundAs('north-block')).toMatchObject({ go: true, stop: false, file: 'go', goes: 2 });
  });

  it('title, headline, week and list of that day say no go', async () => {
    demo.clock.nowMs += 60_000;
    await reads('north-block', { gustMph: 31 });
    const now = await nowOf('north-block');
    expect(now).toMatchObject({ verdict: 'stop', planVerdict: 'go', burn: null });
    const body = await page('/sites/north-block');
    expect(titleOf(body)).toMatch(/: STOP$/);
    const answer = answerOf(body);
    expect([hasWord(answer, 'STOP'), hasWord(answer, 'GO'), answer.includes('9:00 am')]).toEqual([
      true,
      false,
      false,
    ]);
    expect(answer).toContain(now.text);
    expect([hasWord(todayOf(body), 'STOP'), hasWord(todayOf(body), 'GO')]).toEqual([true, false]);
    await expectSame();
    const { today } = await listed('north-block');
    expect([hasWord(today, 'STOP'), hasWord(today, 'GO'), today.includes('Light-up')]).toEqual([
      true,
      false,
      false,
    ]);
    await expectWithdrawn('north-block');
    // All was remembered a minute ago, of the same plan.
    expect(await foundAs('north-block')).toMatchObject({ go: false, stop: true, file: 'stop', goes: 1 });
    // Of another day it says nothing.
    expect(titleOf(await page('/sites/north-block?day=tomorrow'))).toContain('GO');
  });

  it('nor of a site whose mast has fallen silent since the list was remembered', async () => {
    demo.clock.nowMs = Date.parse('2026-04-14T18:30:00Z');
    await demo.service.keeper.pullAll();
    expect(await nowOf('creek-block')).toMatchObject({ verdict: 'hold', planVerdict: 'go', unknown: true });
    expect((await listed('creek-block')).today).toMatch(/CAN'T SAY/);
    expect(await foundAs('creek-block')).toMatchObject({ go: false, file: 'cannot-say' });
    await reads('creek-block', { fromDeg: 100 });
    expect(await nowOf('creek-block')).toMatchObject({ verdict: 'go', burn: null });
    expect(await foundAs('creek-block')).toMatchObject({ go: true, file: 'go' });
    demo.clock.nowMs += 20 * 60_000;
    expect(await nowOf('creek-block')).toMatchObject({ verdict: 'hold', planVerdict: 'go', unknown: true });
    expect(await foundAs('creek-block')).toMatchObject({ go: false, file: 'cannot-say' });
  });
});
