// What /metrics reads of the watch at each scrape: what is open by the store, what was handed over by this process.

import { setTimeout } from 'node:timers/promises';
import { TOLD_BY } from '#core/notices/codes.ts';
import { DAY_MS } from '#core/units/time.ts';
import type { WatchGauges } from '#publish/gauges.ts';
import type { WatchRecords } from '#store/watch/records.ts';
import type { ChannelShelf } from './channel-shelf.ts';
import type { SendTally } from './send-tally.ts';

export interface WatchGaugeOptions {
  readonly records: Pick<WatchRecords, 'figures' | 'pending'>;
  readonly channels: Pick<ChannelShelf, 'names' | 'states'>;
  readonly tally: Pick<SendTally, 'read'>;
  readonly nowMs: () => number;
  readonly patienceMs?: number;
}

/** A store that does not answer must not keep the other figures back: they say that it does not. */
const PATIENCE_MS = 2000;
const NOT_ARRIVED = ['failed', 'uncertain', 'expired'];
/** Of each try; and what networks said later. */
const OUTCOMES = ['sent', 'failed', 'uncertain', 'retry', 'delivered', 'undelivered'];

export function watchGauges({
  records,
  channels,
  tally,
  nowMs,
  patienceMs = PATIENCE_MS,
}: WatchGaugeOptions): () => Promise<WatchGauges> {
  const openNow = async (): Promise<WatchGauges['open']> => {
    const [figures, pending] = await Promise.all([
      records.figures(nowMs() - DAY_MS),
      records.pending(nowMs()),
    ]);
    const { openBurns, noticesByCode, undelivered } = figures;
    const { waiting, claimed, oldestDueMs } = pending;
    return {
      burns: openBurns,
      notices: Object.keys(TOLD_BY).map((code) => ({ code, count: noticesByCode.get(code) ?? 0 })),
      silentStations: noticesByCode.get('station-silent') ?? 0,
      deliveries: { waiting, sending: claimed },
      undelivered: NOT_ARRIVED.map((outcome) => ({ outcome, count: undelivered.get(outcome) ?? 0 })),
      oldestDeliveryS: oldestDueMs === null ? 0 : Math.max(0, nowMs() - oldestDueMs) / 1000,
    };
  };
  return async () => {
    const late = new AbortController();
    const open = await Promise.race([
      openNow().catch(() => null),
      setTimeout(patienceMs, null, { ref: false, signal: late.signal }).catch(() => null),
    ]);
    late.abort();
    const { deliveries, slowestMs, unworded } = tally.read();
    const broken = new Set(channels.states().flatMap((s) => (s.standing === 'broken' ? [s.name] : [])));
    const names = channels.names();
    return {
      open,
      delivered: names.flatMap((channel) =>
        OUTCOMES.map((outcome) => {
          const own = deliveries.filter((d) => d.channel === channel && d.outcome === outcome);
          return { channel, outcome, count: own.reduce((sum, { count }) => sum + count, 0) };
        }),
      ),
      slowestDeliveryS: slowestMs / 1000,
      unworded,
      channels: names.map((channel) => ({ channel, works: !broken.has(channel) })),
    };
  };
}
