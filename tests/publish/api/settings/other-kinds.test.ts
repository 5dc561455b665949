// Orders, sites and contacts through the pages, over the same definitions as the API.

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

const hand = (own = key) => createHand(keyed, () => own);
const get = async (url: string) =>
  (await keyed.service.app.inject({ url, headers: { authorization: `Bearer ${key}` } })).json();

describe('an order', () => {
  it('is entered with what it does to the week of each site, and taken out again', async () => {
    const preview = await hand().type('/settings/orders', {
      ...{ name: 'Burn ban', issuer: 'Tamber County', from: '2026-03-03', to: '2026-03-05' },
      'sites:north-block': 'on',
    });
    expect(preview.status).toBe(200);
    const words = wordsOf(preview.body);
    expect(words).toContain('Who issued it none → Tamber County');
    expect(words).toContain('North block, pit 1');
    expect(words).not.toContain('Creek block');
    expect(words).toMatch(/Tue, Mar 3 now GO .* then STOP/);
    const saved = await hand().save(preview);
    expect([saved.status, saved.location]).toEqual([303, '/settings/orders/burn-ban?saved=1']);
    expect((await get('/v1/orders/burn-ban')).body).toEqual({
      ...{ name: 'Burn ban', issuer: 'Tamber County', sites: ['north-block'] },
      ...{ from: '2026-03-03', to: '2026-03-05' },
    });
    expect((await get('/v1/sites/north-block/plan?day=tomorrow')).verdict).toBe('stop');
    expect(wordsOf((await hand().open('/settings')).body)).toContain(
      'Burn ban Tamber County, 2026-03-03, 2026-03-05',
    );

    const out = await hand().type('/settings/orders/burn-ban', { do: 'take-out' });
    expect(wordsOf(out.body)).toContain('Taken out.');
    expect(wordsOf(out.body)).toMatch(/Tue, Mar 3 now STOP .* then GO/);
    expect((await hand().save(out)).location).toBe('/settings');
    expect((await get('/v1/sites/north-block/plan?day=tomorrow')).verdict).toBe('go');
    expect((await hand().open('/settings/orders/burn-ban')).status).toBe(404);
  });

  it('names its sites: none chosen is not all', async () => {
    const { status, body } = await hand().type('/settings/orders', { name: 'Ban', issuer: 'county' });
    expect(status).toBe(400);
    expect(body).toContain('id="f-sites-bad"');
    expect(wordsOf(body)).toContain('expected "all", or at least one site');
    const all = await hand().type('/settings/orders', { name: 'Ban', issuer: 'county', 'sites:all': 'on' });
    expect(wordsOf(all.body)).toContain('Sites none → all sites');
    expect(wordsOf(all.body)).toContain('Ridge block, pit 1');
  });

  it.each([
    [{ issuer: '' }, 'f-issuer'],
    [{ to: 'someday' }, 'f-to'],
    [{ from: '2026-03-09', to: '2026-03-01' }, 'f-to'],
  ])('with a fault is told beside its field: %j', async (typed, id) => {
    const whole = { name: 'Ban', issuer: 'county', 'sites:all': 'on', ...typed };
    const { status, body } = await hand().type('/settings/orders', whole);
    expect([status, body.includes(`id="${id}-bad"`)]).toEqual([400, true]);
  });
});

describe('a site', () => {
  it('keeps what the form does not show, and is planned as it would be', async () => {
    const before = (await get('/v1/sites/creek-block/definition')).body;
    const preview = await hand().type('/settings/sites/creek-block', {
      ...{
        'shift.from': '10:00',
        'burn.burnDown': '90 min',
        'shift.days:sun': null,
        'protected[0].within': '0.5 mi',
      },
    });
    const words = wordsOf(preview.body);
    expect(words).toContain('Shift: From 07:00 → 10:00');
    expect(words).toContain('Shift: Days Mon, Tue, Wed, Thu, Fri, Sat, Sun → Mon, Tue, Wed, Thu, Fri, Sat');
    expect(words).toContain('The burn: Burn-down 60 min → 90 min');
    expect(words).toContain('Protected place: Within 0.4 mi → 0.5 mi');
    expect((await hand().save(preview)).status).toBe(303);
    const after = (await get('/v1/sites/creek-block/definition')).body;
    expect(after).toEqual({
      ...before,
      shift: { ...before.shift, from: '10:00', days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat'] },
      burn: { ...before.burn, burnDown: '90 min' },
      protected: [{ ...before.protected[0], within: '0.5 mi' }],
    });
    const shown = [...preview.body.matchAll(/then<\/span>[\s\S]*?<\/div>/g)].flatMap(([side]) =>
      [...side.matchAll(/datetime="([^"]+)"/g)].map(([, at]) => at),
    );
    const plans = await Promise.all(
      [...Array(7).keys()].map((i) => get(`/v1/sites/creek-block/plan?day=2026-03-0${2 + i}`)),
    );
    const planned = plans.flatMap((p) => [p.lightUp, p.lastCharge, p.coveredBy]).filter((at) => at !== null);
    expect(planned).toEqual(expect.arrayContaining(shown));
    expect(shown.length).toBeGreaterThan(0);
  });

  it('that moves is not planned by the forecast of where it was', async () => {
    const { body } = await hand().type('/settings/sites/ridge-block', { at: '36.5, -120.4' });
    expect(wordsOf(body)).toContain('The forecast for the new place is fetched when this is saved');
    expect(body).not.toContain('datetime=');
    expect(wordsOf(body)).toContain('Latitude, longitude 36.296, -120.342 → 36.5, -120.4');
  });

  it('is made new, with every fault told at once', async () => {
    const wrong = await hand().type('/settings/sites', {
      id: 'New Site',
      name: '',
      at: '95',
      'shift.from': '7',
    });
    expect(wrong.status).toBe(400);
    for (const id of ['f-id', 'f-name', 'f-at', 'f-shift-from', 'f-shift-days'])
      expect([id, wrong.body.includes(`id="${id}-bad"`)]).toEqual([id, true]);
    const [form] = formsIn(wrong.body);
    if (!form) throw new Error('no form');
    const preview = await hand().send(form, {
      ...{ id: 'new-block', name: 'New block', at: '36.4, -120.2', limits: 'valley' },
      ...{
        'shift.days:mon': 'on',
        'shift.from': '07:00',
        'shift.to': '16:00',
        timeZone: 'America/Los_Angeles',
      },
    });
    expect(preview.status).toBe(200);
    expect((await hand().save(preview)).location).toBe('/settings/sites/new-block?saved=1');
    expect((await get('/v1/sites/new-block/definition')).body).toEqual({
      ...{
        id: 'new-block',
        name: 'New block',
        at: [36.4, -120.2],
        limits: 'valley',
        timeZone: 'America/Los_Angeles',
      },
      shift: { days: ['mon'], from: '07:00', to: '16:00' },
    });
    const again = await hand().type('/settings/sites', { id: 'new-block', name: 'Another' });
    expect(again.body).toContain('there is one of that name already');
  });

  it('may be allowed to burn by night, and no longer', async () => {
    const night = await hand().type('/settings/sites/ridge-block', { daylight: 'none' });
    expect((await hand().save(night)).status).toBe(303);
    expect((await get('/v1/sites/ridge-block/definition')).body.daylight).toBe('none');
    const day = await hand().type('/settings/sites/ridge-block', {
      daylight: '',
      'daylight.outBeforeSunset': '2 h',
    });
    expect((await hand().save(day)).status).toBe(303);
    expect((await get('/v1/sites/ridge-block/definition')).body.daylight).toEqual({ outBeforeSunset: '2 h' });
  });

  it('takes a second shift and a second protected place', async () => {
    const places = await hand().type('/settings/sites/north-block', { do: 'add:place:protected' });
    const shifts = await hand().send(formsIn(places.body)[0] as never, { do: 'add:shift:shift' });
    const preview = await hand().send(formsIn(shifts.body)[0] as never, {
      ...{ 'protected[1].name': 'clinic', 'protected[1].at': '36.44, -120.22' },
      ...{
        'shift[1].days:sat': 'on',
        'shift[1].from': '18:00',
        'shift[1].to': '20:00',
        'shift[0].days:sat': null,
      },
    });
    expect(preview.status).toBe(200);
    expect((await hand().save(preview)).status).toBe(303);
    const { body } = await get('/v1/sites/north-block/definition');
    expect(body.shift).toHaveLength(2);
    expect(body.protected[1]).toEqual({ name: 'clinic', at: [36.44, -120.22] });
  });
});

describe('a limit set that a site names', () => {
  it('is not taken out, and who names it is told', async () => {
    const out = await hand().type('/settings/limits/hills', { do: 'take-out' });
    expect(wordsOf(out.body)).toContain('Ridge block, pit 1 This site is no longer judged.');
    const refused = await hand().save(out);
    expect(refused.status).toBe(409);
    expect(wordsOf(refused.body)).toContain('It is still named by: site ridge-block.');
    expect((await get('/v1/limit-sets/hills')).revision).toBe(1);
  });
});

describe('a contact', () => {
  it('shows ways, language, quiet hours, consent, and that no more texts are wanted', async () => {
    const reader = await keyed.mint({ scopes: ['read', 'notify'] });
    const seen = wordsOf((await hand(reader).open('/settings/contacts/teo')).body);
    for (const text of ['Number or address: +15555550102', 'Language: Spanish', 'May be texted.'])
      expect(seen).toContain(text);
    const preview = await hand().type('/settings/contacts/teo', {
      ...{
        'quiet.from': '22:00',
        'quiet.to': '04:00',
        'consent.at': '2026-02-01',
        'consent.how': 'on paper',
      },
      ...{ 'consent.by': 'office', 'sites:all': null, 'sites:creek-block': 'on' },
    });
    expect(wordsOf(preview.body)).toContain('Quiet hours: Quiet from none → 22:00');
    expect(wordsOf(preview.body)).toContain('Sites none → Creek block, pit 2');
    expect(wordsOf(preview.body)).not.toContain('coming week');
    expect((await hand().save(preview)).status).toBe(303);
    expect((await get('/v1/contacts/teo')).body).toMatchObject({
      ...{ sites: ['creek-block'], quiet: { from: '22:00', to: '04:00' } },
      consent: { at: '2026-02-01', how: 'on paper', by: 'office' },
    });
    const text = await keyed.service.app.inject({
      ...{ method: 'POST', url: '/v1/inbound/text', headers: { authorization: `Bearer ${key}` } },
      payload: { id: 'out', from: '+15555550102', text: 'STOP' },
    });
    expect(text.statusCode).toBe(200);
    expect(wordsOf((await hand(reader).open('/settings/contacts/teo')).body)).toContain(
      'Wants no more texts since 2026-03-03 (“stop”).',
    );
  });

  it('with a number that cannot be called is told beside it', async () => {
    const { status, body } = await hand().type('/settings/contacts/marit', {
      ...{ 'ways[0].to': '555-0101', 'ways[0].channel': 'pigeon' },
    });
    expect(status).toBe(400);
    expect(body).toMatch(/id="f-ways-0-to-bad">[^<]*with \+ and the country code/);
    expect(body).toContain('id="f-ways-0-channel-bad"');
  });
});

describe('a key for some sites', () => {
  it('changes these alone, and is told of no others', async () => {
    const own = await keyed.mint({ scopes: ['admin'], sites: ['creek-block'] });
    const list = (await hand(own).open('/settings')).body;
    expect(list).not.toContain('ridge-block');
    expect(list).not.toContain('href="/settings/limits"');
    expect((await hand(own).open('/settings/sites/ridge-block')).status).toBe(404);
    expect((await hand(own).open('/settings/limits/hills')).status).toBe(404);
    expect((await hand(own).open('/settings/limits/valley')).body).not.toContain('<form');
    const preview = await hand(own).type('/settings/sites/creek-block', { name: 'Creek' });
    expect((await hand(own).save(preview)).status).toBe(303);
    const other = { id: 'ridge-block', revision: '1', content: '{}' };
    expect((await hand(own).send({ action: '/settings/sites', fields: other })).status).toBe(403);
    expect(
      (await hand(own).send({ action: '/settings/limits', fields: { ...other, id: 'valley' } })).status,
    ).toBe(403);
    const fields = { revision: 'new', content: '{"id":"creek-block"}' };
    const typed = await hand(own).send(
      { action: '/settings/sites', fields },
      { id: '', name: 'x', 'shift.from': '07:00' },
    );
    expect(typed.body).not.toContain('already');
    const named = await hand(own).type('/settings/sites/creek-block', { limits: 'hills' });
    expect(named.body).not.toContain('there are');
  });
});
