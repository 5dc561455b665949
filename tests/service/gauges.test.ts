// What /metrics tells of the service, as it changes.

import { afterEach, expect, it } from 'vitest';
import { type Running, startRunning } from './running.ts';

const NOW = '2026-03-02T16:10:00Z';
let running: Running;
afterEach(() => running.close());

async function figures(): Promise<Map<string, number>> {
  const { body } = await running.service.app.inject({ url: '/metrics' });
  const samples = body.split('\n').filter((line) => line !== '' && !line.startsWith('#'));
  return new Map(
    samples.map((line) => [line.slice(0, line.lastIndexOf(' ')), Number(line.slice(line.lastIndexOf(' ')))]),
  );
}

const states = (name: string, told: Map<string, number>) =>
  ['fresh', 'aging', 'stale', 'none'].map((state) => told.get(`${name}{state="${state}"}`));

it('tells sites by the state of their forecast, and which of them have a shift that lasts or is near', async () => {
  running = await startRunning(NOW);
  let told = await figures();
  // 8:10 on a working day.
  expect(states('pitward_sites', told)).toEqual([3, 0, 0, 0]);
  expect(states('pitward_sites_near_shift', told)).toEqual([3, 0, 0, 0]);
  expect(told.get('pitward_round_whole')).toBe(1);
  expect(told.get('pitward_pull_age_seconds{quantile="1"}')).toBe(0);
  // 16:59, then 17:01, when the shift has ended; nobody has pulled since the morning.
  running.clock.nowMs = Date.parse('2026-03-03T00:59:00Z');
  told = await figures();
  expect(states('pitward_sites', told)).toEqual([0, 3, 0, 0]);
  expect(states('pitward_sites_near_shift', told)).toEqual([0, 3, 0, 0]);
  running.clock.nowMs += 120_000;
  told = await figures();
  expect(states('pitward_sites', told)).toEqual([0, 3, 0, 0]);
  expect(states('pitward_sites_near_shift', told)).toEqual([0, 0, 0, 0]);
  expect(told.get('pitward_round_whole')).toBe(0);
  expect(told.get('pitward_pull_age_seconds{quantile="0.5"}')).toBe(8 * 3600 + 51 * 60);
});

it('tells cells whose last pull failed, and that a site has none', async () => {
  running = await startRunning(NOW);
  await running.standIn.close();
  running.clock.nowMs += 3_600_000;
  await running.service.keeper.pullAll();
  const told = await figures();
  const cells = told.get('pitward_forecast_cells{held="yes"}');
  expect(cells).toBeGreaterThan(0);
  expect(told.get('pitward_pull_failing_cells')).toBe(cells);
  expect(told.get('pitward_pull_failing_cells_by_code{code="source_unreachable"}')).toBe(cells);
  const ofOne = 'pitward_cell_failures_total{cell="XXV 44,74",code="source_unreachable"}';
  expect(told.get(ofOne)).toBe(1);
  await running.service.keeper.pullAll();
  expect((await figures()).get(ofOne)).toBe(2);
  expect(told.get('pitward_round_whole')).toBe(0);
  expect(told.get('pitward_pulls_total{kind="grid",outcome="source_unreachable"}')).toBeGreaterThan(0);
});

it('tells nothing of the cell of a site that was taken out', async () => {
  running = await startRunning(NOW);
  const cellsBefore = (await figures()).get('pitward_forecast_cells{held="yes"}') ?? 0;
  const { app } = running.service;
  for (const id of ['ridge-block', 'creek-block']) {
    const { headers } = await app.inject({ url: `/v1/sites/${id}/definition` });
    const condition = { 'if-match': String(headers['etag']) };
    const { statusCode } = await app.inject({ method: 'DELETE', url: `/v1/sites/${id}`, headers: condition });
    expect(statusCode).toBe(204);
  }
  const told = await figures();
  expect(told.get('pitward_forecast_cells{held="yes"}')).toBe(1);
  expect(cellsBefore).toBeGreaterThan(1);
  expect(told.get('pitward_alerts_places{held="yes"}')).toBe(1);
  expect(states('pitward_sites', told)).toEqual([1, 0, 0, 0]);
});

it('tells the size of the store once it was looked up', async () => {
  running = await startRunning(NOW);
  await figures();
  await running.store.care.bytes();
  expect((await figures()).get('pitward_store_bytes{kind="sqlite"}')).toBeGreaterThan(10_000);
});
