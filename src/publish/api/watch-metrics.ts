// What the watch tells of itself → metrics.

import type { WatchGauges } from '#publish/gauges.ts';

/** Name → help and labels. docs/metrics.md tells the same; a test compares. */
export const WATCH_GAUGES = {
  pitward_burns_open: ['burns that are watched: lit, and not covered'],
  pitward_notices_open: ['what somebody was told of and is not over, by what it is about', 'code'],
  pitward_stations_silent: ['stations of pits that burn that tell no more'],
  pitward_deliveries: ['texts, mails and calls that are still to be handed over', 'state'],
  pitward_undelivered: [
    'deliveries of the last day that did not arrive, or of which nobody knows',
    'outcome',
  ],
  pitward_delivery_oldest_seconds: ['time since the oldest that waits was due'],
  pitward_delivery_slowest_seconds: ['the longest that one was under way, from when it was due'],
  pitward_channel_up: ['1 where a channel works, as far as was tried', 'channel'],
} as const;

export const WATCH_COUNTERS = {
  pitward_deliveries_total: ['what came of handing over, by channel', 'channel', 'outcome'],
  pitward_texts_unworded_total: ['texts that went out in fixed words, since their own could not be made'],
} as const;

type Name = keyof typeof WATCH_GAUGES | keyof typeof WATCH_COUNTERS;

export function addWatchRows(
  { open, delivered, slowestDeliveryS, unworded, channels }: WatchGauges,
  add: (name: Name, value: number | null, labels?: Readonly<Record<string, string>>) => void,
): void {
  add('pitward_burns_open', open?.burns ?? null);
  for (const { code, count } of open?.notices ?? []) add('pitward_notices_open', count, { code });
  add('pitward_stations_silent', open?.silentStations ?? null);
  for (const [state, count] of Object.entries(open?.deliveries ?? {}))
    add('pitward_deliveries', count, { state });
  for (const { outcome, count } of open?.undelivered ?? []) add('pitward_undelivered', count, { outcome });
  add('pitward_delivery_oldest_seconds', open?.oldestDeliveryS ?? null);
  add('pitward_delivery_slowest_seconds', slowestDeliveryS);
  for (const { channel, works } of channels) add('pitward_channel_up', works ? 1 : 0, { channel });
  for (const { channel, outcome, count } of delivered)
    add('pitward_deliveries_total', count, { channel, outcome });
  add('pitward_texts_unworded_total', unworded);
}
