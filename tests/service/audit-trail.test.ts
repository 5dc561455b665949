// Who changed what: each change by the API leaves its revision and its row in the audit, under the name and the prefix of the
// key; what was refused leaves neither.

import { afterEach, describe, expect, it } from 'vitest';
import { LIMITS, orderBody, siteBody } from '../publish/access/fitting-request.ts';
import { type Keyed, startKeyed } from './keyed.ts';

let keyed: Keyed;
afterEach(() => keyed.close());

async function ask(key: string, method: string, url: string, payload?: object, headers: object = {}) {
  const response = await keyed.service.app.inject({
    method: method as 'GET',
    url,
    headers: { ...headers, authorization: `Bearer ${key}` },
    ...(payload ? { payload } : {}),
  });
  return { status: response.statusCode, etag: response.headers['etag'], body: response.body };
}

/** Rows of definitions that came since the service was started, oldest first. */
async function rows() {
  const all = await keyed.store.keys.audit(1000);
  return all
    .filter(
      ({ what, detail }) => what.startsWith('definition') && (detail as { origin: string }).origin === 'api',
    )
    .reverse();
}

describe('the audit trail', () => {
  it('names who made, changed and took out what, and when, two keys of one name apart', async () => {
    keyed = await startKeyed('2026-03-03T01:10:00Z');
    const [first, second] = [
      await keyed.mint({ scopes: ['admin'] }),
      await keyed.mint({ scopes: ['admin'] }),
    ];
    const signed = (key: string): string => `office (${key.slice(3, 11)})`;
    expect((await ask(first, 'POST', '/v1/limit-sets', { mine: LIMITS })).status).toBe(201);
    keyed.clock.nowMs += 60_000;
    const site = siteBody('new-site', 'mine');
    expect((await ask(second, 'PUT', '/v1/sites/new-site', site, { 'if-none-match': '*' })).status).toBe(201);
    const renamed = { ...site, name: 'Renamed' };
    expect((await ask(second, 'PUT', '/v1/sites/new-site', renamed, { 'if-match': '"r1"' })).status).toBe(
      200,
    );
    expect((await ask(first, 'DELETE', '/v1/sites/new-site', undefined, { 'if-match': '"r2"' })).status).toBe(
      204,
    );
    const atMs = Date.parse('2026-03-03T01:10:00Z');
    const row = { organisation: 'own', what: 'definition-changed', atMs: atMs + 60_000 };
    expect(await rows()).toEqual([
      { ...row, atMs, who: signed(first), subject: 'limit-set mine', detail: { revision: 1, origin: 'api' } },
      { ...row, who: signed(second), subject: 'site new-site', detail: { revision: 1, origin: 'api' } },
      { ...row, who: signed(second), subject: 'site new-site', detail: { revision: 2, origin: 'api' } },
      {
        ...row,
        what: 'definition-taken-out',
        who: signed(first),
        subject: 'site new-site',
        detail: { revision: 3, origin: 'api' },
      },
    ]);
    const { body } = await ask(first, 'GET', '/v1/sites/new-site/history');
    const told = JSON.parse(body).definitions as { revision: number; changedBy: string; body: unknown }[];
    expect(told.map(({ revision, changedBy }) => [revision, changedBy])).toEqual([
      [3, signed(first)],
      [2, signed(second)],
      [1, signed(second)],
    ]);
    expect(told[0]?.body).toBeNull();
    expect(JSON.stringify(await keyed.store.keys.audit(1000))).not.toContain(first.slice(12));
  });

  it('tells nothing of what was refused, or sent twice', async () => {
    keyed = await startKeyed('2026-03-03T01:10:00Z');
    const admin = await keyed.mint({ scopes: ['admin'] });
    const bound = await keyed.mint({ scopes: ['admin'], sites: ['creek-block'] });
    const reader = await keyed.mint();
    const change = (key: string, headers: object) =>
      ask(key, 'PUT', '/v1/limit-sets/valley', LIMITS, headers).then(({ status }) => status);
    expect(await change(reader, { 'if-match': '"r1"' })).toBe(403);
    expect(await change(bound, { 'if-match': '"r1"' })).toBe(403);
    expect(await change(admin, {})).toBe(428);
    expect(await change(admin, { 'if-match': '"r9"' })).toBe(412);
    expect(await change(admin, { 'if-none-match': '*' })).toBe(412);
    expect((await ask(admin, 'PUT', '/v1/limit-sets/valley', [{}], { 'if-match': '"r1"' })).status).toBe(400);
    expect(await rows()).toEqual([]);
    const once = { 'idempotency-key': 'first-try' };
    for (let i = 0; i < 3; i += 1)
      expect((await ask(admin, 'POST', '/v1/orders', orderBody('Ban'), once)).status).toBe(201);
    expect(await rows()).toHaveLength(1);
  });

  it('of two who change the same at once one is told that it was changed meanwhile', async () => {
    keyed = await startKeyed('2026-03-03T01:10:00Z');
    const admin = await keyed.mint({ scopes: ['admin'] });
    const change = () => ask(admin, 'PUT', '/v1/limit-sets/valley', LIMITS, { 'if-match': '"r1"' });
    const statuses = (await Promise.all([change(), change(), change()])).map(({ status }) => status);
    expect(statuses.sort()).toEqual([200, 412, 412]);
    expect(await rows()).toHaveLength(1);
    expect((await ask(admin, 'GET', '/v1/limit-sets/valley')).etag).toBe('"r2"');
  });
});

describe('two live keys', () => {
  it('both are answered until the first ends, and the second lives on', async () => {
    keyed = await startKeyed('2026-03-03T01:10:00Z');
    const [old, fresh] = [await keyed.mint(), await keyed.mint()];
    const seen = async () => [
      (await ask(old, 'GET', '/v1/sites')).status,
      (await ask(fresh, 'GET', '/v1/sites')).status,
    ];
    expect(await seen()).toEqual([200, 200]);
    const endsMs = keyed.clock.nowMs + 60_000;
    const audit = { atMs: 0, organisation: 'own', who: 'test', what: 'key-ends', subject: '', detail: null };
    await keyed.store.keys.revoke(old.slice(3, 11), endsMs, audit);
    await keyed.service.mirror.sync();
    keyed.clock.nowMs = endsMs - 1000;
    expect(await seen()).toEqual([200, 200]);
    keyed.clock.nowMs = endsMs;
    expect(await seen()).toEqual([401, 200]);
  });
});
