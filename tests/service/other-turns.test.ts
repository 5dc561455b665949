// A watchdog elsewhere hears of whole rounds only.

import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { SiteDefinition } from '#memory/site-definition.ts';
import { otherTurns } from '#service/other-turns.ts';
import type { Store } from '#store/store.ts';
import { type Running, startRunning } from './running.ts';

const NOW_MS = Date.parse('2026-03-02T12:00:00Z');
const PERIODS = { everyMin: 20, nearShiftMin: 10, alertsMin: 5, heartbeatMin: 5 };
const SIGNAL = new AbortController().signal;

let running: Running;
let definition: SiteDefinition | undefined;
let watchdog: Server;
let calls: string[] = [];
let status = 200;

beforeAll(async () => {
  running = await startRunning('2026-03-02T12:00:00Z', undefined, false);
  [definition] = running.service.mirror.book().sites.values();
});
afterAll(() => running.close());

beforeEach(async () => {
  calls = [];
  status = 200;
  watchdog = createServer((request, response) => {
    calls.push(`${request.method} ${request.url}`);
    response.writeHead(status).end();
  });
  await new Promise<void>((resolve) => {
    watchdog.listen(0, '127.0.0.1', resolve);
  });
});
afterEach(() => watchdog.close());

interface World {
  /** So long ago the forecast of the site was pulled and its alerts were read. */
  readonly ageMs?: number;
  readonly madeMs?: number;
  readonly watchedMs?: number | null;
  readonly probe?: () => Promise<void>;
  readonly planAll?: () => Promise<void>;
  readonly named?: boolean;
}

const nothing = (): Promise<void> => Promise.resolve();

function turns({
  ageMs = MINUTE_MS,
  madeMs = NOW_MS - HOUR_MS,
  watchedMs = NOW_MS - MINUTE_MS,
  probe = nothing,
  planAll = nothing,
  named = true,
}: World = {}) {
  const url = `http://127.0.0.1:${(watchdog.address() as AddressInfo).port}/round/secret`;
  const mirror = {
    book: () => ({ broken: new Map(), sites: new Map([['own/a', definition]]) }),
    place: () => ({ cell: 'LSX 10,20', alertsFetchedAtMs: NOW_MS - ageMs }),
    cell: () => ({ fault: null, triedAtMs: NOW_MS - ageMs }),
    state: () => ({ held: { alerts: { complete: true }, forecast: { issuedAtMs: madeMs } } }),
  } as unknown as Mirror;
  return otherTurns({
    watching: { watch: nothing, observe: nothing },
    planAll,
    config: {
      store: { file: '', keepPlansDays: 400, keepObservationsDays: 400, keepBurnsDays: 1826 },
      ...(named ? { heartbeat: { url, everyMin: 5 } } : {}),
    },
    store: { care: { probe }, forecasts: { lastDoneMs: async () => watchedMs } } as unknown as Store,
    mirror,
    periods: PERIODS,
    nowMs: () => NOW_MS,
  });
}

describe('the call to a watchdog', () => {
  it('comes once after a whole round', async () => {
    await turns().heartbeat(SIGNAL);
    expect(calls).toEqual(['GET /round/secret']);
  });

  it('does not come where something is late, or where no watchdog is named', async () => {
    await turns({ ageMs: HOUR_MS }).heartbeat(SIGNAL);
    await turns({ named: false }).heartbeat(SIGNAL);
    expect(calls).toEqual([]);
  });

  it('does not come where the forecast is too old to go by, however well it was pulled', async () => {
    await turns({ madeMs: NOW_MS - 48 * HOUR_MS }).heartbeat(SIGNAL);
    expect(calls).toEqual([]);
  });

  it.each([
    ['never', null],
    ['an hour ago', NOW_MS - HOUR_MS],
  ])('does not come where the watch looked %s', async (_, watchedMs) => {
    await turns({ watchedMs }).heartbeat(SIGNAL);
    expect(calls).toEqual([]);
  });

  it('comes after what was pulled is planned, and not where that fails', async () => {
    const planAll = () => Promise.reject(new Error('no plan'));
    await expect(turns({ planAll }).heartbeat(SIGNAL)).rejects.toThrow('no plan');
    expect(calls).toEqual([]);
  });

  it('does not come where the store cannot write', async () => {
    const probe = () => Promise.reject(new Error('disk full'));
    await expect(turns({ probe }).heartbeat(SIGNAL)).rejects.toThrow('disk full');
    expect(calls).toEqual([]);
  });

  it('that was refused is a fault, which is tried again, and tells no more of the address than its host', async () => {
    status = 503;
    const refused = turns().heartbeat(SIGNAL);
    await expect(refused).rejects.toMatchObject({ code: 'source_unreachable', retryable: true });
    await refused.catch((fault: Error) => expect(fault.message).not.toContain('secret'));
  });
});
