// Too much to do, and on the way to the end: said early, and health stays reachable.

import { afterEach, describe, expect, it, vi } from 'vitest';
import { createDraining } from '#publish/api/draining.ts';
import { type Running, startRunning } from '../../service/running.ts';

let running: Running;
afterEach(() => running.close());

const statusOf = async (url: string) => (await running.service.app.inject({ url })).statusCode;

describe('a service with too much to do', () => {
  it('says so, and when to ask again, on every route but health', async () => {
    // Any delay is too much.
    running = await startRunning('2026-03-03T01:10:00Z', undefined, true, {
      server: { mostLoopDelayMs: 0.000_001 },
    });
    // The delay is that of a second of real time.
    await vi.waitFor(async () => expect(await statusOf('/v1/sites')).toBe(503), {
      timeout: 10_000,
      interval: 50,
    });
    for (const url of ['/', '/v1/sites/north-block/windows', '/metrics', '/v1/nowhere']) {
      const { statusCode, headers, body } = await running.service.app.inject({ url });
      expect([url, statusCode, headers['retry-after']]).toEqual([url, 503, '5']);
      expect(body).toContain('too much to do');
    }
    expect([await statusOf('/healthz'), await statusOf('/readyz')]).toEqual([200, 200]);
  });
});

describe('a service that is about to end', () => {
  it('is alive but not ready, and still answers', async () => {
    const draining = createDraining();
    running = await startRunning('2026-03-03T01:10:00Z', undefined, true, { server: { draining } });
    expect(await statusOf('/readyz')).toBe(200);
    draining.begin();
    expect([await statusOf('/readyz'), await statusOf('/healthz'), await statusOf('/v1/sites')]).toEqual([
      503, 200, 200,
    ]);
    const { reason } = (await running.service.app.inject({ url: '/readyz' })).json();
    expect(reason).toEqual({ code: 'ending', sentence: 'the service is being stopped' });
  });
});
