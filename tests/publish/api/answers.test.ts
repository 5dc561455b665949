import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hoursSchema, planSchema, siteSchema, sitesSchema, windowsSchema } from '#publish/wire.ts';
import { readySchema } from '#publish/wire-ready.ts';
import { type Running, startRunning } from '../../service/running.ts';

let running: Running;
const get = (url: string, headers: Record<string, string> = {}) =>
  running.service.app.inject({ url, headers });

beforeAll(async () => {
  running = await startRunning('2026-03-03T01:10:00Z');
});
afterAll(() => running.close());

describe('the answers', () => {
  it('windows tile the day of the site without gap or overlap, each with reasons', async () => {
    const answer = windowsSchema.parse((await get('/v1/sites/north-block/windows?day=tomorrow')).json());
    expect(answer.windows[0]?.from).toBe(answer.from);
    expect(answer.windows.at(-1)?.to).toBe(answer.to);
    for (const [i, w] of answer.windows.entries()) {
      if (i > 0) expect(w.from).toBe(answer.windows[i - 1]?.to);
      expect(w.reasons.length).toBeGreaterThan(0);
      expect(w.reasons.every((r) => r.text.length > 3)).toBe(true);
    }
    expect(answer.windows.some((w) => w.verdict === 'go')).toBe(true);
    expect(answer.demo).toBe(true);
  });

  it('the plan carries the three times in order, each with a cause', async () => {
    const plan = planSchema.parse((await get('/v1/sites/north-block/plan?day=tomorrow')).json());
    expect(plan.verdict).toBe('go');
    const times = [
      plan.warmUp,
      plan.lightUp,
      plan.firstCharge,
      plan.lastCharge,
      plan.burnedDown,
      plan.coveredBy,
    ];
    const ms = times.map((t) => Date.parse(t ?? ''));
    expect(ms).toEqual([...ms].sort((a, b) => a - b));
    expect(ms.every(Number.isFinite)).toBe(true);
    expect(plan.causes.lightUp.length).toBeGreaterThan(0);
    expect(plan.causes.lastCharge.length).toBeGreaterThan(0);
    expect(plan.wouldChange.moves.length).toBeGreaterThan(0);
  });

  it('hours carry every score with value, room and class', async () => {
    const answer = hoursSchema.parse((await get('/v1/sites/north-block/hours?day=tomorrow')).json());
    expect(answer.hours).toHaveLength(24);
    const site = siteSchema.parse((await get('/v1/sites/north-block')).json());
    const elements = site.limits.filter((l) => 'element' in l);
    for (const hour of answer.hours) {
      expect(hour.scores).toHaveLength(elements.length);
      for (const s of hour.scores) expect((s.value === null) === (s.class === 'missing')).toBe(true);
    }
  });

  it('the three demo sites read go, a hold that lifts to go, and stop', async () => {
    const verdictsOf = async (id: string) => {
      const answer = windowsSchema.parse((await get(`/v1/sites/${id}/windows?day=tomorrow`)).json());
      return answer.windows.map((w) => w.verdict);
    };
    expect(await verdictsOf('north-block')).toContain('go');
    const creek = await verdictsOf('creek-block');
    expect(creek.indexOf('hold')).toBeGreaterThanOrEqual(0);
    expect(creek.indexOf('hold')).toBeLessThan(creek.indexOf('go'));
    expect(await verdictsOf('ridge-block')).toEqual(['stop']);
  });

  it('lists sites, and readiness with the age of each forecast', async () => {
    const sites = sitesSchema.parse((await get('/v1/sites')).json());
    expect(sites.sites.map((s) => s.id)).toEqual(['creek-block', 'north-block', 'ridge-block']);
    const ready = await get('/readyz');
    expect(ready.statusCode).toBe(200);
    for (const s of readySchema.parse(ready.json()).sites ?? []) expect(s.ageMin).toBeGreaterThanOrEqual(0);
    expect((await get('/healthz')).json()).toEqual({ alive: true });
  });

  it('times are RFC 3339 in site time with the offset', async () => {
    const plan = planSchema.parse((await get('/v1/sites/north-block/plan?day=tomorrow')).json());
    expect(plan.lightUp).toMatch(/^2026-03-03T\d\d:\d\d:\d\d-08:00$/);
  });

  it('speaks Spanish and SI when asked', async () => {
    const plan = planSchema.parse(
      (await get('/v1/sites/north-block/plan?day=tomorrow&lang=es&units=si')).json(),
    );
    expect(plan.text).toContain('ADELANTE');
    expect(['m/s', 'm', '%', 'm²/s']).toContain(plan.tightest?.unit);
  });
});

describe('the ETag', () => {
  it('answers 304 on a match, and the same bytes for the same question', async () => {
    const url = '/v1/sites/north-block/windows?day=tomorrow';
    const first = await get(url);
    const etag = String(first.headers.etag);
    expect(etag).toMatch(/^"[\w-]{27}"$/);
    const again = await get(url, { 'if-none-match': etag });
    expect([again.statusCode, again.body]).toEqual([304, '']);
    expect((await get(url)).body).toBe(first.body);
    expect((await get(url, { 'if-none-match': '"other", W/"x"' })).statusCode).toBe(200);
    expect((await get(url, { 'if-none-match': `"other", ${etag}` })).statusCode).toBe(304);
  });

  it('stays when the same content is pulled again, and changes with a new issue, another day or other limits', async () => {
    const own = await startRunning('2026-03-03T01:10:00Z');
    const etagOf = async (r: Running, day: string) =>
      String((await r.service.app.inject({ url: `/v1/sites/north-block/windows?day=${day}` })).headers.etag);
    const first = await etagOf(own, '2026-03-04');
    own.clock.nowMs += 60_000;
    await own.service.keeper.pullAll();
    expect(await etagOf(own, '2026-03-04')).toBe(first);
    expect(await etagOf(own, '2026-03-05')).not.toBe(first);
    own.clock.nowMs += 2 * 3_600_000;
    await own.service.keeper.pullAll();
    expect(await etagOf(own, '2026-03-04')).not.toBe(first);
    await own.close();
    const other = await startRunning('2026-03-03T01:10:00Z', (yaml) =>
      yaml.replaceAll('burnDown: 60 min', 'burnDown: 75 min'),
    );
    expect(await etagOf(other, '2026-03-04')).not.toBe(first);
    await other.close();
  });
});

describe('ageing', () => {
  it('a forecast that is pulled no more turns to hold by itself, also where the answer was kept', async () => {
    const own = await startRunning('2026-03-03T01:10:00Z');
    const url = '/v1/sites/north-block/windows?day=2026-03-03';
    const read = async () => windowsSchema.parse((await own.service.app.inject({ url })).json());
    expect((await read()).windows.some((w) => w.verdict === 'go')).toBe(true);
    own.clock.nowMs += 15 * 3_600_000;
    const late = await read();
    expect(late.stale).toBe(true);
    expect(late.windows.some((w) => w.verdict === 'go')).toBe(false);
    expect(late.windows.flatMap((w) => w.reasons.map((r) => r.code))).toContain('forecast-stale');
    const ready = await own.service.app.inject({ url: '/readyz' });
    expect([ready.statusCode, ready.json().reason.code]).toEqual([503, 'no-fresh-forecast']);
    await own.close();
  });
});
