// The calendars of a running service: a window keeps its name while the plan moves, and the address is a key that can be ended.

import ICAL from 'ical.js';
import { expect, it, onTestFinished } from 'vitest';
import { createLogger } from '#cli/logger.ts';
import { expectRules } from '../../publish/calendar/calendar-rules.ts';
import { type Keyed, startKeyed } from '../keyed.ts';

const NOW = '2026-04-14T13:00:00Z';

async function calendars(lines: string[] = []) {
  const demo = await startKeyed(NOW, {
    logger: createLogger('trace', { write: (line) => void lines.push(line) }),
  });
  onTestFinished(demo.close);
  const admin = await demo.mint({ scopes: ['admin'] });
  const feed = await demo.mint({ scopes: ['calendar'], sites: ['north-block'] });
  const ask = (url: string, headers: Record<string, string> = {}) =>
    demo.service.app.inject({ url, headers });
  const asAdmin = { authorization: `Bearer ${admin}` };
  const read = async (url = `/v1/calendar/${feed}`, headers = {}) => {
    const { statusCode, headers: told, body } = await ask(url, headers);
    expect([statusCode, told['content-type']]).toEqual([200, 'text/calendar; charset=utf-8']);
    ICAL.parse(body);
    return expectRules(body);
  };
  const limits = async (hold: string, stop: string): Promise<void> => {
    const url = '/v1/limit-sets/valley';
    const headers = { ...asAdmin, 'if-match': String((await ask(url, asAdmin)).headers['etag']) };
    const payload = [{ element: 'windSpeed', atMost: { hold, stop }, source: 'our rule' }];
    const { statusCode, body } = await demo.service.app.inject({ method: 'PUT', url, headers, payload });
    expect(statusCode, body).toBe(200);
  };
  return { ...demo, feed, ask, asAdmin, read, limits };
}

const goesOf = async (demo: Keyed, headers: Record<string, string>) => {
  const url = '/v1/sites/north-block/windows?from=2026-04-14&to=2026-04-20';
  const { windows } = (await demo.service.app.inject({ url, headers })).json();
  return windows.filter(({ verdict }: { verdict: string }) => verdict === 'go');
};

it('tells the go windows of the days ahead, in UTC, under names that stay', async () => {
  const demo = await calendars();
  const events = await demo.read();
  expect(events.length).toBeGreaterThan(1);
  const goes: { from: string; to: string }[] = await goesOf(demo, demo.asAdmin);
  expect(events.map(({ fromMs, toMs }) => [fromMs, toMs])).toEqual(
    goes.map(({ from, to }) => [Date.parse(from), Date.parse(to)]),
  );
  expect(await demo.read()).toEqual(events);
  // The same windows by the other addresses.
  expect(await demo.read('/v1/sites/north-block/windows.ics', demo.asAdmin)).toEqual(events);
  const all = await demo.read('/v1/windows.ics', demo.asAdmin);
  expect(all).toEqual(expect.arrayContaining(events));
  expect(all.length).toBeGreaterThan(events.length);
  // And none to whoever has no site here.
  const stranger = await demo.mint({ organisation: 'elsewhere' });
  expect(await demo.read('/v1/windows.ics', { authorization: `Bearer ${stranger}` })).toEqual([]);
});

it('counts up where a window moves, and keeps one that is no go any more as taken back', async () => {
  const demo = await calendars();
  const before = await demo.read();
  await demo.limits('1 mph', '2 mph');
  const gone = await demo.read();
  expect(gone.map(({ uid, sequence, status }) => [uid, sequence, status])).toEqual(
    before.map(({ uid, sequence }) => [uid, sequence + 1, 'CANCELLED']),
  );
  await demo.limits('60 mph', '70 mph');
  const back = await demo.read();
  for (const { uid, fromMs, toMs } of before) {
    const again = back.find((event) => event.uid === uid);
    expect(again).toMatchObject({ sequence: 2, status: 'TENTATIVE' });
    expect(again?.fromMs).toBeLessThanOrEqual(fromMs);
    expect(again?.toMs).toBeGreaterThanOrEqual(toMs);
  }
});

it('is asked again at no cost while nothing changed', async () => {
  const demo = await calendars();
  const { headers } = await demo.ask(`/v1/calendar/${demo.feed}`);
  const again = await demo.ask(`/v1/calendar/${demo.feed}`, { 'if-none-match': String(headers['etag']) });
  expect([again.statusCode, again.body]).toEqual([304, '']);
  await demo.limits('1 mph', '2 mph');
  const changed = await demo.ask(`/v1/calendar/${demo.feed}`, { 'if-none-match': String(headers['etag']) });
  expect(changed.statusCode).toBe(200);
});

it('its key opens nothing else, no other key opens it, and it ends when it is revoked', async () => {
  const demo = await calendars();
  const { feed } = demo;
  for (const url of ['/v1/sites', '/v1/windows.ics', '/v1/events', '/'])
    expect((await demo.ask(url, { authorization: `Bearer ${feed}` })).statusCode).toBe(403);
  const others = [
    await demo.mint(),
    await demo.mint({ scopes: ['admin'] }),
    await demo.mint({ scopes: ['read', 'calendar'] }),
    await demo.mint({ scopes: ['calendar'], revokedAtMs: demo.clock.nowMs }),
    await demo.mint({ scopes: ['calendar'], expiresAtMs: demo.clock.nowMs }),
    `${feed.slice(0, 12)}${'A'.repeat(43)}`,
    'nothing',
  ];
  const answers = await Promise.all(others.map((key) => demo.ask(`/v1/calendar/${key}`)));
  const [first] = answers;
  expect(first?.statusCode).toBe(404);
  for (const { body } of answers) expect(body).toBe(first?.body);
  const audit = {
    atMs: demo.clock.nowMs,
    organisation: 'own',
    who: 'test',
    what: 'key-revoked',
    detail: null,
  };
  const prefix = feed.slice(3, 11);
  await demo.store.keys.revoke(prefix, demo.clock.nowMs, { ...audit, subject: prefix });
  await demo.service.mirror.sync();
  expect((await demo.ask(`/v1/calendar/${feed}`)).statusCode).toBe(404);
});

it('its address is in no line of the log', async () => {
  const lines: string[] = [];
  const demo = await calendars(lines);
  await demo.read();
  expect((await demo.ask(`/v1/calendar/${demo.feed}?lang=fr`)).statusCode).toBe(400);
  expect((await demo.ask(`/v1/calendar/${demo.feed}/more`)).statusCode).toBe(401);
  const { statusCode } = await demo.service.app.inject({ method: 'POST', url: `/v1/calendar/${demo.feed}` });
  expect(statusCode).toBe(401);
  expect(lines.length).toBeGreaterThan(0);
  expect(lines.join('')).not.toContain(demo.feed.slice(12));
});

it('of a site that nothing is known of there is no go, and what was told of one is taken back', async () => {
  const demo = await calendars();
  const events = await demo.read();
  // So long that no forecast may be gone by.
  demo.clock.nowMs += 20 * 3_600_000;
  const later = await demo.read();
  const ahead = later.filter(({ toMs }) => toMs > demo.clock.nowMs);
  expect(ahead.length).toBeGreaterThan(0);
  for (const { status } of ahead) expect(status).toBe('CANCELLED');
  expect(later.map(({ uid }) => uid)).toEqual(events.map(({ uid }) => uid));
});
