// What /metrics tells of the watch, as it changes: burns, what crews were told of, and what became of the texts.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createSendTally } from '#service/watch/send-tally.ts';
import { watchGauges } from '#service/watch/watch-gauges.ts';
import { startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

/** 10:00 at the north block, in its go. */
const TEN = '2026-04-14T17:00:00Z';

let demo: WatchedDemo;
beforeAll(async () => {
  demo = await startWatchedDemo(TEN);
});
afterAll(() => demo.close());

async function figures(): Promise<(name: string) => number | undefined> {
  const { body } = await demo.service.app.inject({ url: '/metrics' });
  const samples = body.split('\n').filter((line) => line !== '' && !line.startsWith('#'));
  const told = new Map(
    samples.map((line) => [line.slice(0, line.lastIndexOf(' ')), Number(line.slice(line.lastIndexOf(' ')))]),
  );
  return (name) => told.get(name);
}

const post = (fromDeg: number) =>
  demo.api('POST', '/v1/sites/north-block/observations', {
    station: 'mast',
    time: new Date(demo.clock.nowMs).toISOString(),
    windSpeed: '8 mph',
    windDirection: fromDeg,
    windGust: '11 mph',
    relativeHumidity: '45 %',
  });

describe('the figures of the watch', () => {
  it('are nought where nothing burns and nothing waits, and every series is there', async () => {
    const told = await figures();
    expect(told('pitward_burns_open')).toBe(0);
    expect(told('pitward_notices_open{code="smoke-turned-to-place"}')).toBe(0);
    expect(told('pitward_deliveries{state="waiting"}')).toBe(0);
    expect(told('pitward_delivery_oldest_seconds')).toBe(0);
    expect(told('pitward_undelivered{outcome="failed"}')).toBe(0);
    expect(told('pitward_deliveries_total{channel="text",outcome="failed"}')).toBe(0);
    expect(told('pitward_channel_up{channel="text"}')).toBe(1);
  });

  it('tell of a burn, of what was told about it, and of what waits', async () => {
    await post(210);
    await demo.api('POST', '/v1/sites/north-block/burns', { tap: 'lit', by: 'Ana' });
    await demo.service.watching.send();
    demo.pass(5);
    // The gateway says that it cannot now.
    demo.gateway.bad.push({ status: 503 });
    await post(290);
    await demo.service.watching.send();
    demo.clock.nowMs += 9000;
    const told = await figures();
    expect(told('pitward_burns_open')).toBe(1);
    expect(told('pitward_notices_open{code="smoke-turned-to-place"}')).toBe(1);
    expect(told('pitward_notices_open{code="thunder-near"}')).toBe(0);
    expect(told('pitward_stations_silent')).toBe(0);
    expect(told('pitward_deliveries{state="waiting"}')).toBe(1);
    expect(told('pitward_delivery_oldest_seconds')).toBeGreaterThan(0);
    expect(told('pitward_deliveries_total{channel="text",outcome="retry"}')).toBe(1);
  });

  it('tell what became of it, by channel, and how long it took', async () => {
    const before = await figures();
    await demo.service.watching.send();
    const told = await figures();
    const more = (name: string): number => (told(name) ?? 0) - (before(name) ?? 0);
    expect(more('pitward_deliveries_total{channel="text",outcome="sent"}')).toBe(1);
    expect(told('pitward_deliveries{state="waiting"}')).toBe(0);
    expect(told('pitward_delivery_oldest_seconds')).toBe(0);
    expect(told('pitward_delivery_slowest_seconds')).toBeGreaterThanOrEqual(7);
  });

  it('tell of a channel that is broken and of what did not arrive', async () => {
    demo.gateway.bad.push({ status: 401 });
    demo.pass(6);
    await post(285);
    await demo.minute();
    const told = await figures();
    expect(told('pitward_deliveries_total{channel="text",outcome="failed"}')).toBe(1);
    expect(told('pitward_undelivered{outcome="failed"}')).toBe(1);
  });

  it('tell of a station that tells no more', async () => {
    demo.pass(30);
    await demo.minute();
    expect((await figures())('pitward_stations_silent')).toBe(1);
  });
});

describe('a store that does not answer', () => {
  const gauges = (figures: () => Promise<never>) =>
    watchGauges({
      records: { figures, pending: () => Promise.resolve({ waiting: 0, claimed: 0, oldestDueMs: null }) },
      channels: { names: () => ['text'], states: () => [] },
      tally: createSendTally(),
      nowMs: () => 0,
      patienceMs: 1,
    })();

  it.each([
    ['fails', () => Promise.reject(new Error('the store fails'))],
    ['hangs', () => new Promise<never>(() => undefined)],
  ])('and %s keeps none of the other figures back', async (_, asked) => {
    expect(await gauges(asked)).toMatchObject({ open: null, channels: [{ channel: 'text', works: true }] });
  });
});
