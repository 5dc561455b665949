// What the look before knew still counts when what it was known by has gone: over the real API and store.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

/** 9:00 at the north block, in its go until the afternoon. */
const NINE = '2026-04-14T16:00:00Z';

let demo: WatchedDemo;
beforeAll(async () => {
  demo = await startWatchedDemo(NINE);
});
afterAll(() => demo.close());

const post = async (relativeHumidity: string | null) => {
  const { body } = await demo.api('POST', '/v1/sites/north-block/observations', {
    station: 'mast',
    time: new Date(demo.clock.nowMs).toISOString(),
    windSpeed: '8 mph',
    windDirection: 205 + ((demo.clock.nowMs / 60_000) % 11),
    windGust: '11 mph',
    relativeHumidity,
  });
  expect((body['results'] as { outcome: string }[])[0]?.outcome).toBe('kept');
};

describe('an element that was told and is told no more', () => {
  it('stays a hold that nobody can lift, long after its last reading plays no part', async () => {
    await post('45 %');
    await demo.api('POST', '/v1/sites/north-block/burns', { tap: 'lit', by: 'Ana' });
    // The wind goes on being told; the humidity, with its limit, does not.
    for (let minutes = 0; minutes < 200; minutes += 10) {
      demo.pass(10);
      await post(null);
    }
    // Forecast and alerts are in time; what is missing is the humidity alone.
    await demo.service.keeper.pullAll();
    const { body } = await demo.api('GET', '/v1/sites/north-block/now');
    expect(body).toMatchObject({ verdict: 'hold', planVerdict: 'go', unknown: true });
    const unknown = (body['conditions'] as Record<string, unknown>[]).filter((c) => c['truth'] === 'unknown');
    expect(unknown.map((c) => [c['code'], c['subject'], c['verdict']])).toContainEqual([
      'observed-beyond-limit',
      'relativeHumidity',
      'hold',
    ]);
  });

  it('is free again with its next reading', async () => {
    demo.pass(5);
    await post('45 %');
    const { body } = await demo.api('GET', '/v1/sites/north-block/now');
    expect(body).toMatchObject({ verdict: 'go', unknown: false });
  });
});
