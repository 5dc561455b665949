// What the crew taps: kept with its own time, looked at in the same step, never refused for what the plan says.

import { randomUUID } from 'node:crypto';
import { DAY_MS } from '#core/units/time.ts';
import type { BurnTap } from '#core/watch/burn.ts';
import { incidentRef } from '#core/watch/burn-incident.ts';
import { ServiceError } from '#errors.ts';
import { watchSite } from '#jobs/watch/watch-site.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
import type { BurnRecord, TapAsked, WatchDesk } from '#publish/watch-desk.ts';
import { burnRecord } from './live-now.ts';

/** A phone without signal may bring a tap so late; a clock may run ahead by so much. */
const OLDEST_MS = 7 * DAY_MS;
const AHEAD_MS = 5 * 60_000;
const MOST_BURNS = 500;

export function tapDesk(deps: WatchDeps): Pick<WatchDesk, 'open' | 'tap' | 'burns' | 'burn' | 'assign'> {
  const { store } = deps;
  const existing = async (siteKey: string, id: string): Promise<BurnRecord> => {
    const found = await store.watch.burn(siteKey, id);
    if (found === null) throw new ServiceError('not_found', `no burn "${id}" here`);
    return burnRecord(deps, found.burn);
  };
  const keep = async (siteKey: string, burn: string, asked: TapAsked) => {
    const tap = tapOf(asked, burn, deps.nowMs());
    const { kept } = await watchSite(deps, siteKey, { taps: [tap] });
    return { record: await existing(siteKey, burn), already: !kept.taps.includes(tap.id) };
  };
  return {
    async open(siteKey, asked) {
      // The same tap sent again must find the burn that it opened.
      const id = asked.id ?? randomUUID();
      return keep(siteKey, `burn-${id}`, { ...asked, id });
    },
    async tap(siteKey, burn, asked) {
      const record = await existing(siteKey, burn);
      if (asked.corrects !== null && !record.taps.some(({ id }) => id === asked.corrects)) {
        throw badTap('corrects', 'expected a tap of this burn');
      }
      if (asked.withdraws && asked.corrects === null) {
        throw badTap('withdraws', 'expected `corrects` to name the tap that did not happen');
      }
      return keep(siteKey, burn, asked);
    },
    async burns(siteKey, fromMs, toMs) {
      const found = await store.watch.burns(siteKey, fromMs, toMs, MOST_BURNS);
      return Promise.all(found.map((burn) => burnRecord(deps, burn)));
    },
    burn: existing,
    async assign(siteKey, burn, reference, by) {
      const before = await existing(siteKey, burn);
      // The same again is told once.
      if (incidentRef(before.incidents) === reference) return before;
      // Named by its moment: of two within one the order is that of their names.
      const atMs = Math.max(deps.nowMs(), (before.incidents.at(-1)?.atMs ?? 0) + 1);
      const incident = { id: randomUUID(), burn, reference, by, atMs };
      await store.watch.commit([{ site: siteKey, replaces: null, incidents: [incident] }]);
      return existing(siteKey, burn);
    },
  };
}

function tapOf(asked: TapAsked, burn: string, nowMs: number): BurnTap {
  const { tap, by, from, corrects, withdraws, note } = asked;
  const tappedAtMs = asked.tappedAtMs ?? nowMs;
  if (tappedAtMs > nowMs + AHEAD_MS) throw badTap('at', 'lies more than 5 minutes in the future');
  if (tappedAtMs < nowMs - OLDEST_MS) throw badTap('at', 'lies more than 7 days in the past');
  const id = asked.id ?? randomUUID();
  return { id, burn, tap, tappedAtMs, receivedAtMs: nowMs, by, from, corrects, withdraws, note };
}

const badTap = (path: string, message: string): ServiceError =>
  new ServiceError('bad_body', `${path}: ${message}`, { facts: { faults: [{ path, message }] } });
