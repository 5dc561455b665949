import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { problemSchema } from '#publish/wire.ts';
import { type Running, startRunning } from '../../service/running.ts';

let running: Running;
beforeAll(async () => {
  running = await startRunning('2026-03-03T01:10:00Z');
});
afterAll(() => running.close());

const SITE = '/v1/sites/north-block';
const problem = async (url: string, options: object = {}) => {
  const answer = await running.service.app.inject({ url, ...options });
  expect(answer.headers['content-type']).toContain('application/problem+json');
  expect(answer.body).not.toMatch(/\bat .*\.ts:\d+|node:internal|stack/);
  const body = problemSchema.parse(answer.json());
  expect(body.status).toBe(answer.statusCode);
  return body;
};
const post = (payload: unknown, query = '') =>
  problem(`/v1/plan${query}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    payload: typeof payload === 'string' ? payload : JSON.stringify(payload),
  });

describe('a bad query names the parameter and what was expected', () => {
  const cases: [string, string, RegExp][] = [
    [`${SITE}/windows?day=yesterday`, 'day', /today, tomorrow or a date/],
    [`${SITE}/windows?day=2026-02-30`, 'day', /date YYYY-MM-DD/],
    [`${SITE}/windows?from=2026-03-03`, 'to', /both from and to/],
    [`${SITE}/windows?from=2026-03-05&to=2026-03-03`, 'to', /after from/],
    [`${SITE}/windows?from=2026-03-01&to=2026-04-03`, 'to', /at most 10 days/],
    [`${SITE}/windows?day=today&from=2026-03-01&to=2026-03-02`, 'day', /either day/],
    [`${SITE}/windows?from=2026-03-03T10:00&to=2026-03-04`, 'from', /with offset/],
    [`${SITE}/windows?from=-271821-04-20T00:00:00Z&to=-271821-04-21T00:00:00Z`, 'from', /with offset/],
    [`${SITE}/hours?from=%2B275760-09-12T00:00:00Z&to=%2B275760-09-13T00:00:00Z`, 'from', /with offset/],
    ['/v1/sites?colour=red', '(query)', /unknown parameter "colour"/],
    [`${SITE}/hours?units=imperial`, 'units', /us or si/],
    [`${SITE}/plan?lang=fr`, 'lang', /en or es/],
    [`${SITE}/plan?colour=red`, '(query)', /unknown parameter "colour"/],
    [`${SITE}/plan?from=2026-03-01&to=2026-03-02`, '(query)', /unknown parameter "from", "to"/],
  ];
  it.each(cases)('%s', async (url, path, expected) => {
    const { status, code, faults, detail } = await problem(url);
    expect([status, code]).toEqual([400, 'bad_query']);
    expect(faults?.map((f) => f.path)).toContain(path);
    expect(detail).toMatch(expected);
  });
});

describe('a bad body names the path and what was expected', () => {
  const site = {
    at: [36.438, -120.231],
    shift: { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], from: '07:00', to: '17:00' },
  };
  const limits = [{ element: 'windGust', atMost: { hold: '18 mph', stop: '25 mph' }, source: 'our rule' }];

  it.each<[string, unknown, string, RegExp]>([
    ['no body', {}, 'site', /expected/],
    ['an unknown key', { site: { ...site, wind: 3 }, limits }, 'site', /unknown key "wind"/],
    [
      'a wrong unit',
      { site, limits: [{ ...limits[0], atMost: { hold: '18 bananas' } }] },
      'limits[0].atMost.hold',
      /mph/,
    ],
    ['a latitude beyond the pole', { site: { ...site, at: [97, 0] }, limits }, 'site.at[0]', /90/],
    ['no limits at all', { site }, 'limits', /list of limits/],
    ['two sets of limits', { site: { ...site, limits: 'hills' }, limits }, 'limits', /not both/],
    [
      'only clock limits',
      { site, limits: [{ clock: { outBy: '17:00' }, source: 'x' }] },
      'limits',
      /forecast element/,
    ],
    [
      'a limit without a source',
      { site, limits: [{ element: 'windGust', atMost: { hold: '18 mph' } }] },
      'limits[0].source',
      /expected/,
    ],
  ])('%s', async (_name, body, path, expected) => {
    const { status, code, faults } = await post(body);
    expect([status, code]).toEqual([400, 'bad_body']);
    expect(faults?.find((f) => f.path === path)?.message).toMatch(expected);
  });

  it('no JSON, an empty body, another content type', async () => {
    expect((await post('{"site":')).code).toBe('bad_body');
    expect((await post('')).code).toBe('bad_body');
    const { status } = await problem('/v1/plan', {
      method: 'POST',
      headers: { 'content-type': 'text/plain' },
      payload: 'x',
    });
    expect(status).toBe(400);
  });

  it('a body over 64 KiB, and one nested too deep', async () => {
    expect((await post(JSON.stringify({ site, filler: 'x'.repeat(70_000) }))).status).toBe(413);
    expect((await post(`{"site":${'['.repeat(60)}${']'.repeat(60)}}`)).status).toBe(413);
  });

  it('prototype keys change nothing', async () => {
    expect((await post('{"__proto__":{"site":1},"site":{}}')).status).toBe(400);
  });

  it('a good what-if is planned and not stored', async () => {
    const before = (await running.service.app.inject({ url: '/v1/sites' })).json().sites.length;
    const answer = await running.service.app.inject({
      method: 'POST',
      url: '/v1/plan?day=tomorrow',
      payload: { site, limits },
    });
    expect(answer.statusCode).toBe(200);
    const body = answer.json();
    expect(body.day).toBe('2026-03-03');
    expect(body.windows[0].from).toBe('2026-03-03T00:00:00-08:00');
    expect((await running.service.app.inject({ url: '/v1/sites' })).json().sites).toHaveLength(before);
  });

  it('a what-if out of coverage says so', async () => {
    const { status, code } = await post({ site: { ...site, at: [48.2, 16.4] }, limits });
    expect([status, code]).toEqual([422, 'outside_coverage']);
  });
});

describe('what is not there', () => {
  it('an unknown site, an unknown route', async () => {
    expect((await problem('/v1/sites/nowhere/plan')).code).toBe('unknown_site');
    expect((await problem('/v1/nothing')).code).toBe('not_found');
    expect((await problem('/v1/sites/north-block/plan', { method: 'DELETE' })).status).toBe(404);
    expect((await problem('/v1/sites/north-block', { method: 'DELETE' })).code).toBe('precondition_required');
  });

  it('addresses that cannot be routed are problems too', async () => {
    for (const url of ['/v1/sites/%ff/plan', '/sites/%zz', `/v1/sites/${'x'.repeat(300)}/plan`]) {
      expect((await problem(url)).status).toBe(404);
    }
  });

  it('no forecast yet is 503 and never a go', async () => {
    const own = await startRunning('2026-03-03T01:10:00Z', (c) => c, false);
    const answer = await own.service.app.inject({ url: `${SITE}/windows` });
    expect(answer.statusCode).toBe(503);
    expect(answer.json().code).toBe('no_forecast');
    const ready = await own.service.app.inject({ url: '/readyz' });
    expect([ready.statusCode, ready.json().reason.code]).toEqual([503, 'no-fresh-forecast']);
    await own.close();
  });
});
