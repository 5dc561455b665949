// A silence and a drill that are asked for again with the same key act once.

import { expect, it } from 'vitest';
import { startBurning, TURNED } from './start-burning.ts';
import { SITE, type WatchedDemo } from './watched-demo.ts';

async function post(demo: WatchedDemo, url: string, key: string, payload: object) {
  const headers = { 'idempotency-key': key };
  const {
    statusCode,
    body,
    headers: sent,
  } = await demo.service.app.inject({ method: 'POST', url, headers, payload });
  return {
    status: statusCode,
    body: JSON.parse(body) as Record<string, unknown>,
    replayed: sent['idempotency-replayed'] ?? null,
  };
}

it('a silence sent again is the same one, ended or not, and another under its key is refused', async () => {
  const demo = await startBurning();
  await demo.reads(TURNED);
  const asked = { site: 'north-block', minutes: 20, reason: 'on the radio' };
  const first = await post(demo, '/v1/silences', 'k-1', asked);
  demo.pass(1);
  const again = await post(demo, '/v1/silences', 'k-1', asked);
  expect([first.status, again.status, again.body]).toEqual([201, 201, first.body]);
  expect([first.replayed, again.replayed]).toEqual([null, 'true']);
  const other = await post(demo, '/v1/silences', 'k-1', { ...asked, minutes: 30 });
  expect([other.status, other.body['code'], other.replayed]).toEqual([422, 'key_reused', null]);
  await demo.service.app.inject({ method: 'DELETE', url: `/v1/silences/${first.body['id']}` });
  const ended = await post(demo, '/v1/silences', 'k-1', asked);
  expect(ended.body['endedAt']).not.toBeNull();
  expect((await demo.api('GET', '/v1/silences')).body['silences']).toEqual([]);
});

it('a drill sent again is the same one, and no second is refused as too soon', async () => {
  const demo = await startBurning();
  const first = await post(demo, `${SITE}/drill`, 'k-2', {});
  const again = await post(demo, `${SITE}/drill`, 'k-2', {});
  expect([first.status, again.status, again.body['id']]).toEqual([202, 202, first.body['id']]);
  expect([first.replayed, again.replayed]).toEqual([null, 'true']);
  expect((await post(demo, `${SITE}/drill`, 'k-3', {})).status).toBe(429);
});
