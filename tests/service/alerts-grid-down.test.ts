// A Red Flag Warning that comes while the grid cannot be had must be seen at the next round all the same.

import { createServer, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { readConfig } from '#config/load.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { inMemory } from '#service/in-memory.ts';
import { createService } from '#service/service.ts';
import { DEMO_YAML } from './running.ts';

const SITE = 'north-block';
const FIRE_ZONE = 'XXZ221';
const NOW_MS = Date.parse('2026-03-03T15:10:00Z');
const ROUND_MS = 20 * 60_000;

const open: (() => Promise<unknown>)[] = [];

afterEach(async () => {
  for (const close of open.splice(0)) await close();
});

const warning = {
  type: 'Feature',
  geometry: null,
  properties: {
    id: 'urn:test:red-flag',
    affectedZones: [`https://api.weather.gov/zones/fire/${FIRE_ZONE}`],
    sent: '2026-03-03T15:15:00+00:00',
    onset: '2026-03-03T06:00:00+00:00',
    ends: '2026-03-04T18:00:00+00:00',
    status: 'Actual',
    messageType: 'Alert',
    event: 'Red Flag Warning',
    senderName: 'Office of the test',
  },
};

function answer(response: ServerResponse, status: number, body: string): void {
  const type = status === 200 ? 'application/geo+json' : 'application/problem+json';
  response.sendDate = false;
  response.writeHead(status, { 'content-type': type }).end(body);
}

/** The demonstration's stand-in behind a front that can break its grids and its alerts, and issue a warning. */
async function startFront(nowMs: () => number) {
  const standIn = await startStandIn({ nowMs });
  const state = { gridFails: false, alertsFail: false, warns: false };
  const server = createServer((request, response) => {
    const path = request.url ?? '/';
    const isAlerts = path.startsWith('/alerts/');
    if ((state.gridFails && path.startsWith('/gridpoints/')) || (state.alertsFail && isAlerts)) {
      answer(response, 500, JSON.stringify({ type: 'x/UnexpectedProblem', title: 'Unexpected Problem' }));
    } else if (state.warns && path === `/alerts/active?zone=${FIRE_ZONE}`) {
      answer(response, 200, JSON.stringify({ type: 'FeatureCollection', features: [warning] }));
    } else {
      fetch(`${standIn.baseUrl}${path}`)
        .then(async (found) => answer(response, found.status, await found.text()))
        .catch(() => response.destroy());
    }
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  open.push(() => standIn.close());
  open.push(() => {
    server.closeAllConnections();
    return new Promise((resolve) => {
      server.close(resolve);
    });
  });
  return { state, baseUrl: `http://127.0.0.1:${(server.address() as AddressInfo).port}` };
}

async function started() {
  const clock = { nowMs: NOW_MS };
  const nowMs = () => clock.nowMs;
  const { state, baseUrl } = await startFront(nowMs);
  const { config, written } = readConfig(DEMO_YAML, 'demo.yaml');
  const service = await createService({
    ...(await inMemory(nowMs)),
    written,
    file: 'demo.yaml',
    steadyMs: () => 0,
    config: { ...config, sources: { nws: { ...config.sources.nws, baseUrl } } },
    demo: true,
    ownSource: true,
    nowMs,
    logger: null,
    sleep: () => Promise.resolve(),
    version: '0.0.0-test',
  });
  open.unshift(() => service.close());
  const round = async () => {
    clock.nowMs += ROUND_MS;
    await service.keeper.pullAll();
  };
  const get = async (path: string) => (await service.app.inject({ url: `/v1/sites/${SITE}${path}` })).json();
  await service.keeper.pullAll();
  return { state, clock, round, get };
}

interface Window {
  readonly verdict: string;
  readonly reasons: readonly { readonly code: string }[];
}

const verdicts = (answered: { windows: Window[] }): Set<string> =>
  new Set(answered.windows.map(({ verdict }) => verdict));

describe('a Red Flag Warning that comes while the grid fails', () => {
  const day = '/windows?day=2026-03-03';

  it('turns the answer to stop at the next round, beside the forecast that is held', async () => {
    const { state, round, get } = await started();
    const before = await get('');
    expect(verdicts(await get(day))).toContain('go');
    state.gridFails = true;
    state.warns = true;
    await round();
    const after = await get('');
    expect(after.forecast.fault.code).toBe('source_unreachable');
    expect(after.forecast.documentId).toBe(before.forecast.documentId);
    expect([...verdicts(await get(day))]).toEqual(['stop']);
  });

  it('is seen at once, not only when the alerts held have grown too old', async () => {
    const { state, round, get } = await started();
    state.gridFails = true;
    await round();
    // Without a warning the same failure leaves the answer as it was: it is the warning that stops.
    expect(verdicts(await get(day))).toContain('go');
    state.warns = true;
    await round();
    expect([...verdicts(await get(day))]).toEqual(['stop']);
  });

  it('that cannot be asked for leaves no go: the list is then not known to be whole', async () => {
    const { state, round, get } = await started();
    state.gridFails = true;
    state.alertsFail = true;
    await round();
    expect(verdicts(await get(day))).not.toContain('go');
  });
});
