// A watchdog elsewhere hears of whole rounds only.

import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Mirror } from '#memory/mirror.ts';
import { otherTurns } from '#service/other-turns.ts';
import type { Store } from '#store/store.ts';

const NOW_MS = Date.parse('2026-03-02T12:00:00Z');
const PERIODS = { everyMin: 20, nearShiftMin: 10, alertsMin: 5, heartbeatMin: 5 };
const SIGNAL = new AbortController().signal;

let watchdog: Server;
let calls: string[] = [];
let status = 200;

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

/** One site, whose forecast was pulled and whose alerts were read so long ago. */
function turns(ageMs: number, probe = () => Promise.resolve(), named = true) {
  const url = `http://127.0.0.1:${(watchdog.address() as AddressInfo).port}/round/secret`;
  const mirror = {
    book: () => ({ broken: new Map(), sites: new Map([['own/a', { fields: { at: [1, 2] } }]]) }),
    place: () => ({ cell: 'LSX 10,20', alertsFetchedAtMs: NOW_MS - ageMs }),
    cell: () => ({ fault: null, triedAtMs: NOW_MS - ageMs }),
    state: () => ({ held: { alerts: { complete: true } } }),
  } as unknown as Mirror;
  const nothing = (): Promise<void> => Promise.resolve();
  return otherTurns({
    watching: { watch: nothing, observe: nothing },
    config: {
      store: { file: '', keepPlansDays: 400, keepObservationsDays: 400, keepBurnsDays: 1826 },
      ...(named ? { heartbeat: { url, everyMin: 5 } } : {}),
    },
    store: { care: { probe } } as unknown as Store,
    mirror,
    periods: PERIODS,
    nowMs: () => NOW_MS,
  });
}

describe('the call to a watchdog', () => {
  it('comes once after a whole round', async () => {
    await turns(60_000).heartbeat(SIGNAL);
    expect(calls).toEqual(['GET /round/secret']);
  });

  it('does not come where something is late, or where no watchdog is named', async () => {
    await turns(3_600_000).heartbeat(SIGNAL);
    await turns(60_000, () => Promise.resolve(), false).heartbeat(SIGNAL);
    expect(calls).toEqual([]);
  });

  it('does not come where the store cannot write', async () => {
    const probe = () => Promise.reject(new Error('disk full'));
    await expect(turns(60_000, probe).heartbeat(SIGNAL)).rejects.toThrow('disk full');
    expect(calls).toEqual([]);
  });

  it('that was refused is a fault, which is tried again, and tells no more of the address than its host', async () => {
    status = 503;
    const refused = turns(60_000).heartbeat(SIGNAL);
    await expect(refused).rejects.toMatchObject({ code: 'source_unreachable', retryable: true });
    await refused.catch((fault: Error) => expect(fault.message).not.toContain('secret'));
  });
});
