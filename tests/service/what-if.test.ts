// A what-if over the running service: from what it holds, by the age of that, and under every ban in force.

import { afterEach, describe, expect, it } from 'vitest';
import { type Running, startRunning } from './running.ts';

const NOW = '2026-03-03T01:10:00Z';
let running: Running;
afterEach(() => running.close());

const LIMITS = [{ element: 'windSpeed', atMost: { hold: '20 mph' }, source: 'our rule' }];
const SHIFT = { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], from: '07:00', to: '17:00' };
const siteAt = (latDeg: number, lonDeg: number) => ({ at: [latDeg, lonDeg], shift: SHIFT });

async function whatIf(site: object) {
  const response = await running.service.app.inject({
    method: 'POST',
    url: '/v1/plan?day=tomorrow',
    payload: { site, limits: LIMITS },
  });
  return { status: response.statusCode, ...response.json() };
}

const isGo = ({ windows }: { windows: { verdict: string }[] }) => windows.some((w) => w.verdict === 'go');

describe('a what-if', () => {
  it('at a site, and beside it in its cell, needs no source that answers', async () => {
    running = await startRunning(NOW);
    // Somebody asked about the place beside it before, so that it is known where it lies.
    expect((await whatIf(siteAt(36.439, -120.232))).status).toBe(200);
    await running.standIn.close();
    const there = await whatIf(siteAt(36.438, -120.231));
    const beside = await whatIf(siteAt(36.439, -120.232));
    expect([there.status, beside.status, isGo(there), isGo(beside)]).toEqual([200, 200, true, true]);
    // The very forecast of the site.
    const site = (await running.service.app.inject({ url: '/v1/sites/north-block/plan' })).json();
    expect([there.madeAt, beside.madeAt]).toEqual([site.madeAt, site.madeAt]);
    const elsewhere = await whatIf(siteAt(36.9, -120.6));
    expect([elsewhere.status, elsewhere.code]).toEqual([502, 'source_unreachable']);
  });

  it('holds when what the service holds has grown too old', async () => {
    running = await startRunning(NOW);
    await running.standIn.close();
    running.clock.nowMs += 15 * 3_600_000;
    const late = await whatIf(siteAt(36.438, -120.231));
    expect([late.status, late.stale, isGo(late), late.verdict]).toEqual([200, true, false, 'hold']);
  });

  it('is judged by the bans in force', async () => {
    running = await startRunning(NOW);
    const ban = { name: 'County burn ban', issuer: 'county', from: '2026-03-02' };
    await running.service.app.inject({ method: 'POST', url: '/v1/orders', payload: ban });
    expect((await whatIf(siteAt(36.438, -120.231))).verdict).toBe('stop');
  });
});
