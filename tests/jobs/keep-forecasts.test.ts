// What the keeper does when the forecast cannot be had: a new warning must be seen all the same.

import { describe, expect, it } from 'vitest';
import { DEMO_CELLS } from '#demo/cells.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { ServiceError } from '#errors.ts';
import { createForecastKeeper } from '#jobs/keep-forecasts.ts';
import { createNwsSource } from '#sources/nws/client.ts';
import type { ForecastSource } from '#sources/source.ts';
import { createLatestForecasts } from '#store/latest.ts';

const NOW = Date.parse('2026-03-03T18:00:00Z');
const cell = DEMO_CELLS[0];
if (!cell) throw new Error('the demo has no cell');
const log = { info: () => undefined, warn: () => undefined };

/** The demo's own source, whose forecast can be made to fail and whose alerts can be set. */
async function failingSource() {
  const standIn = await startStandIn({ nowMs: () => NOW });
  const real = createNwsSource({
    pace: null,
    baseUrl: standIn.baseUrl,
    contact: 'ops@example.org',
    nowMs: () => NOW,
    sleep: () => Promise.resolve(),
    random: () => 0.5,
    log,
  });
  const warning = {
    id: 'w1',
    event: 'Red Flag Warning',
    fromMs: NOW,
    toMs: NOW + 6 * 3_600_000,
    sentMs: NOW,
    senderName: 'Demonstration Office',
    headline: '',
    possible: false,
  };
  const state = { fails: false, alertsFail: false };
  const source: ForecastSource = {
    name: 'failing',
    pull: (place, signal) =>
      state.fails
        ? Promise.reject(new ServiceError('source_unreachable', 'grid down'))
        : real.pull(place, signal),
    alerts: () =>
      state.alertsFail
        ? Promise.reject(new ServiceError('source_unreachable', 'alerts down'))
        : Promise.resolve({ fetchedAtMs: NOW, complete: true, alerts: [warning] }),
    close: () => real.close(),
  };
  const latest = createLatestForecasts();
  const place = cell?.place ?? { latDeg: 0, lonDeg: 0 };
  const keeper = createForecastKeeper({
    sites: [{ id: 'a', place }],
    source,
    latest,
    everyMin: 20,
    nowMs: () => NOW,
    log,
  });
  const close = async () => {
    await keeper.stop();
    await source.close();
    await standIn.close();
  };
  return { state, latest, keeper, close };
}

describe('a round in which the forecast cannot be had', () => {
  it('keeps the forecast, tells the fault, and brings the newest alerts', async () => {
    const { state, latest, keeper, close } = await failingSource();
    await keeper.pullAll();
    const before = latest.get('a');
    state.fails = true;
    await keeper.pullAll();
    const after = latest.get('a');
    expect(after.held?.forecast).toBe(before.held?.forecast);
    expect(after.fault?.code).toBe('source_unreachable');
    expect(after.held?.alerts.alerts.map((a) => a.event)).toEqual(['Red Flag Warning']);
    expect(after.version).toBeGreaterThan(before.version);
    await close();
  });

  it('leaves the alerts as they were where they cannot be had either', async () => {
    const { state, latest, keeper, close } = await failingSource();
    await keeper.pullAll();
    const before = latest.get('a').held?.alerts;
    state.fails = true;
    state.alertsFail = true;
    await keeper.pullAll();
    expect(latest.get('a').held?.alerts).toBe(before);
    await close();
  });

  it('brings nothing where no forecast is held: alerts alone are no answer', async () => {
    const { state, latest, keeper, close } = await failingSource();
    state.fails = true;
    await keeper.pullAll();
    expect(latest.get('a').held).toBeNull();
    await close();
  });
});
