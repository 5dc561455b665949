// Limits through the pages: shown with what they do before they are saved, and then saved as shown.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Keyed, startKeyed } from '../../../service/keyed.ts';
import { wordsOf } from '../../page/read-page.ts';
import { createHand, formsIn } from './forms.ts';

const NOW = '2026-03-03T01:10:00Z';
let keyed: Keyed;
let key = '';
beforeAll(async () => {
  keyed = await startKeyed(NOW);
  key = await keyed.mint({ name: 'Marit', scopes: ['admin'] });
});
afterAll(() => keyed.close());

const hand = () => createHand(keyed, () => key);
const api = async (url: string, method: 'GET' | 'PUT' = 'GET', payload?: object, headers: object = {}) => {
  const response = await keyed.service.app.inject({
    ...{ method, url, headers: { authorization: `Bearer ${key}`, ...headers } },
    ...(payload ? { payload } : {}),
  });
  return response.json();
};
const valley = () => api('/v1/limit-sets/valley');
const GUST = '[1].atMost.hold';

describe('a change of a limit', () => {
  it('is shown with what it does, and the plan after saving is the one that was shown', async () => {
    const week: string[] = [];
    for (let i = 0; i < 7; i += 1) week.push(new Date(Date.UTC(2026, 2, 2 + i)).toISOString().slice(0, 10));
    const plans = () => Promise.all(week.map((day) => api(`/v1/sites/north-block/plan?day=${day}`)));
    const before = await plans();
    const preview = await hand().type('/settings/limits/valley', { [GUST]: '9 mph' });
    expect(preview.status).toBe(200);
    const words = wordsOf(preview.body);
    expect(words).toContain('Gust: At most, else hold 20 mph → 9 mph');
    // Nothing is saved by looking.
    expect((await valley()).revision).toBe(1);
    const rows =
      preview.body
        .split('<h3>North block, pit 1</h3>')[1]
        ?.split('<h3>')[0]
        ?.match(/<li\b[\s\S]*?<\/li>/g) ?? [];
    expect(rows).toHaveLength(7);

    const saved = await hand().save(preview);
    expect([saved.status, saved.location]).toEqual([303, '/settings/limits/valley?saved=1']);
    expect(wordsOf((await hand().open(saved.location ?? '')).body)).toContain('Saved, and in force.');
    const after = await plans();
    expect(after.map((p) => p.lightUp)).not.toEqual(before.map((p) => p.lightUp));
    for (const [i, row] of rows.entries()) {
      const [was, is] = [before[i], after[i]];
      const sides = row.split('<div class="side">').slice(1);
      const told = sides.map((side) => [...side.matchAll(/datetime="([^"]+)"/g)].map(([, at]) => at));
      // Of a burn that is over the page says that, and no times.
      const timesOf = (p: typeof was) =>
        p.standing === 'over' ? [] : [p.lightUp, p.lastCharge, p.coveredBy].filter((at) => at !== null);
      expect([week[i], told.at(-1)]).toEqual([week[i], timesOf(is)]);
      expect([week[i], told[0]]).toEqual([week[i], timesOf(was)]);
      const moved = JSON.stringify([was.verdict, timesOf(was)]) !== JSON.stringify([is.verdict, timesOf(is)]);
      if (moved) expect(sides).toHaveLength(2);
      // Of today and of what nobody can say the page says more than the day's verdict.
      if (i > 0 && !is.cannotSay) {
        const word = { go: 'GO', hold: 'HOLD', stop: 'STOP' }[is.verdict as 'go' | 'hold' | 'stop'];
        expect([week[i], wordsOf(sides.at(-1) ?? '')]).toEqual([week[i], expect.stringContaining(word)]);
      }
      const windows = await api(`/v1/sites/north-block/windows?day=${week[i]}`);
      // The strip shows the working hours of the day, out of all windows of it.
      const drawn = /aria-label="([^"]*)"/.exec(sides.at(-1) ?? '')?.[1] ?? 'nothing';
      const said = windows.windows.map((w: { verdict: string }) => w.verdict.toUpperCase());
      expect([week[i], said.join(' ')]).toEqual([
        week[i],
        expect.stringContaining(drawn.match(/\b(GO|HOLD|STOP)\b/g)?.join(' ') ?? 'nothing'),
      ]);
    }
    const { definitions } = await api('/v1/limit-sets/valley/history');
    expect(definitions[0]).toMatchObject({
      revision: 2,
      origin: 'api',
      changedBy: expect.stringMatching(/^Marit \(/),
    });
    expect(definitions[0].body[1]).toEqual({
      ...definitions[1].body[1],
      atMost: { hold: '9 mph', stop: '25 mph' },
    });
    expect(definitions[0].body.toSpliced(1, 1)).toEqual(definitions[1].body.toSpliced(1, 1));
  });

  it('with faults is not shown as a change: each is told beside its field', async () => {
    const { revision } = await valley();
    const { status, body } = await hand().type('/settings/limits/valley', {
      [GUST]: '30',
      '[0].source': '',
      '[0].atMost.hold': '16 mph',
      '[2].atLeast.stop': '200 %',
    });
    expect(status).toBe(400);
    const bad = (path: string): string => {
      const id = `f-${path.replaceAll(/[^A-Za-z0-9]+/g, '-')}`;
      expect(body).toMatch(new RegExp(`id="${id}"[^>]*aria-invalid="true"`));
      return new RegExp(`id="${id}-bad">([^<]*)<`).exec(body)?.[1] ?? '';
    };
    expect(bad(GUST)).toMatch(/unit/);
    expect(bad('[0].source')).toContain('expected whose figure this is');
    expect(bad('[2].atLeast.stop')).toContain('expected a figure from 0 to 100 %');
    // What was typed is still there.
    expect(formsIn(body)[0]?.fields).toMatchObject({ [GUST]: '30', '[0].atMost.hold': '16 mph' });
    expect((await valley()).revision).toBe(revision);
  });

  it('that somebody else was quicker with is not saved, and shown against what stands now', async () => {
    const preview = await hand().type('/settings/limits/hills', { '[1].atMost.hold': '17 mph' });
    const { body, revision } = await api('/v1/limit-sets/hills');
    const theirs = body.with(0, { ...body[0], atMost: { hold: '8 mph', stop: '15 mph' } });
    await api('/v1/limit-sets/hills', 'PUT', theirs, { 'if-match': `"r${revision}"` });
    const refused = await hand().save(preview);
    expect(refused.status).toBe(412);
    const words = wordsOf(refused.body);
    expect(words).toContain('Somebody changed it meanwhile. Nothing was saved');
    // Saving as it is would take theirs back: that is said.
    expect(words).toContain('Wind: At most, else hold 8 mph → 10 mph');
    expect(words).toContain('Gust: At most, else hold 18 mph → 17 mph');
    expect((await api('/v1/limit-sets/hills')).body).toEqual(theirs);
    expect((await hand().save(refused)).status).toBe(303);
    expect((await api('/v1/limit-sets/hills')).body[1].atMost.hold).toBe('17 mph');
  });

  it('that is saved twice, by a button that was pressed twice, is saved once and said to be saved', async () => {
    const preview = await hand().type('/settings/limits/hills', { '[5].atMost.hold': '12 %' });
    const [first, second] = [await hand().save(preview), await hand().save(preview)];
    expect([first.status, second.status]).toEqual([303, 303]);
    expect(second.location).toBe(first.location);
    const { definitions } = await api('/v1/limit-sets/hills/history');
    expect(
      definitions.filter((d: { body: typeof definitions }) => d.body[5].atMost.hold === '12 %'),
    ).toHaveLength(1);
  });

  it('that was previewed from an older page is shown against what stands now, too', async () => {
    const [form] = formsIn((await hand().open('/settings/limits/hills')).body);
    const { body, revision } = await api('/v1/limit-sets/hills');
    await api('/v1/limit-sets/hills', 'PUT', body, { 'if-match': `"r${revision}"` });
    if (!form) throw new Error('no form');
    expect((await hand().send(form, { '[1].atMost.hold': '16 mph' })).status).toBe(412);
  });

  it('that changes nothing has nothing to save', async () => {
    const { body } = await hand().type('/settings/limits/valley', {});
    expect(wordsOf(body)).toContain('Nothing changes.');
    expect(formsIn(body).filter(({ action }) => action.includes('/save'))).toEqual([]);
  });

  it('adds rows and takes them away', async () => {
    const added = await hand().type('/settings/limits/valley', { do: 'add:element:', [GUST]: '19 mph' });
    const [form] = formsIn(added.body);
    const rows = (await valley()).body.length;
    expect(form?.fields[`[${rows}].element`]).toBe('windSpeed');
    expect(form?.fields[GUST]).toBe('19 mph');
    if (!form) throw new Error('no form');
    const named = {
      [`[${rows}].element`]: 'temperature',
      [`[${rows}].atMost.stop`]: '100 degF',
      [`[${rows}].source`]: 'our rule',
    };
    const preview = await hand().send(form, named);
    expect(wordsOf(preview.body)).toContain('Temperature: At most, else stop none → 100 degF');
    const fewer = await hand().type('/settings/limits/valley', { do: 'remove:[2]' });
    const gone = formsIn(fewer.body)[0];
    if (!gone) throw new Error('no form');
    expect(gone.fields['[2].element']).toBe('mixingHeight');
    expect(wordsOf((await hand().send(gone)).body)).toContain(
      'Humidity: At least, else hold 30 % → left out',
    );
  });

  it('of every kind of row is read as it is written in the file', async () => {
    const body = [
      {
        element: 'windSpeed',
        atMost: { hold: '12 mph' },
        when: 'night',
        inclusive: true,
        height: '2 m',
        source: 'a',
      },
      { element: 'redFlagThreat', atMost: { hold: 3, stop: 4 }, source: 'b' },
      { clock: { lightFrom: '08:00' }, source: 'c' },
      { season: { from: '06-01', to: '09-30' }, source: 'd' },
      {
        ventilationCategory: { table: 't', unit: 'kt-ft', bounds: [28_500, 38_000], onBound: 'lower' },
        ...{ atLeast: { hold: 3, stop: 2 }, source: 'e' },
      },
    ];
    const made = await keyed.service.app.inject({
      ...{ method: 'POST', url: '/v1/limit-sets', payload: { kinds: body } },
      headers: { authorization: `Bearer ${key}` },
    });
    expect(made.statusCode).toBe(201);
    expect(wordsOf((await hand().type('/settings/limits/kinds', {})).body)).toContain('Nothing changes.');
    const changed = await hand().type('/settings/limits/kinds', {
      ...{ '[1].atMost.hold': '2', '[4].ventilationCategory.bounds': '28500, 39000', '[0].inclusive': null },
    });
    expect((await hand().save(changed)).status).toBe(303);
    const now = (await api('/v1/limit-sets/kinds')).body;
    expect(now[4].ventilationCategory.bounds).toEqual([28_500, 39_000]);
    expect([now[1].atMost, now[0].inclusive]).toEqual([{ hold: '2', stop: 4 }, undefined]);
  });

  it('in the live fragment is what the preview says, and faults are told there as well', async () => {
    const [form] = formsIn((await hand().open('/settings/limits/valley')).body);
    if (!form) throw new Error('no form');
    const typed = { '[0].atMost.hold': '6 mph' };
    const fragment = await hand().send({ ...form, action: '/settings/limits/week' }, typed);
    const preview = await hand().send(form, typed);
    const week = /<h2>The coming week[\s\S]*?(?=<form|$)/;
    expect(fragment.status).toBe(200);
    expect(week.exec(fragment.body)?.[0].trim()).toBe(week.exec(preview.body)?.[0].trim());
    expect(fragment.body).not.toContain('<html');
    const wrong = await hand().send({ ...form, action: '/settings/limits/week' }, { [GUST]: 'much' });
    expect(wordsOf(wrong.body)).toContain('[1].atMost.hold:');
  });
});
