import { describe, expect, it } from 'vitest';
import { readConfig } from '#config/load.ts';
import { inMemory } from '#service/in-memory.ts';
import { createService } from '#service/service.ts';
import { DEMO_YAML, startRunning } from './running.ts';

/** A service whose source is never reached: nothing listens on the discard port. */
async function unreachable() {
  const yaml = DEMO_YAML.replace('http://127.0.0.1', 'http://127.0.0.1:9');
  const nowMs = () => Date.parse('2026-03-03T01:10:00Z');
  return createService({
    ...(await inMemory(nowMs)),
    ...readConfig(yaml, 'dead.yaml'),
    file: 'dead.yaml',
    steadyMs: () => 0,
    demo: false,
    ownSource: true,
    nowMs,
    logger: null,
    version: 'test',
    sleep: () => Promise.resolve(),
  });
}

describe('a source that gives no answer', () => {
  it('is said on every surface, and no surface says go', async () => {
    const service = await unreachable();
    await service.keeper.pullAll();
    const get = (url: string) => service.app.inject({ url });
    const ready = await get('/readyz');
    expect([ready.statusCode, ready.json().ready]).toEqual([503, false]);
    expect(ready.json().sites[0].fault.code).toBe('source_unreachable');
    const plan = await get('/v1/sites/north-block/plan?day=tomorrow');
    expect([plan.statusCode, plan.json().code]).toEqual([503, 'no_forecast']);
    expect(plan.json().detail).toContain('127.0.0.1:9');
    const home = await get('/');
    expect(home.statusCode).toBe(200);
    // Beside the counts, of which that of go is none, and the words of the search.
    const said = home.body.replace(/<section aria-label.*?<\/section>|<option.*?<\/option>/gs, '');
    expect(said).not.toMatch(/>GO</);
    expect(home.body.match(/GO<\/span>&nbsp;(\d+)/g)).toEqual(['GO</span>&nbsp;0', 'GO</span>&nbsp;0']);
    expect(home.body).not.toContain('DEMO');
    const page = await get('/sites/north-block');
    expect(page.statusCode).toBe(503);
    expect(page.body).toContain('not a permit');
    await service.close();
  });
});

describe('a source that fails later', () => {
  it('leaves the last good forecast with its age, and the fault beside it; ageing turns it to hold', async () => {
    const running = await startRunning('2026-03-03T01:10:00Z');
    await running.standIn.close();
    running.clock.nowMs += 60 * 60_000;
    await running.service.keeper.pullAll();
    const site = (await running.service.app.inject({ url: '/v1/sites/north-block' })).json();
    expect(site.forecast.fault.code).toBe('source_unreachable');
    expect(site.forecast.state).toBe('fresh');
    expect(site.forecast.ageMin).toBeGreaterThanOrEqual(60);
    running.clock.nowMs += 2 * 60 * 60_000;
    const late = (
      await running.service.app.inject({ url: '/v1/sites/north-block/windows?day=2026-03-03' })
    ).json();
    expect(late.windows.every((w: { verdict: string }) => w.verdict !== 'go')).toBe(true);
    expect(late.windows[0].reasons.map((r: { code: string }) => r.code)).toContain('alerts-unknown');
    await running.service.close();
  });
});
