// Official alerts, invented.

import type { AlertsSeen, OfficialAlert } from '#core/series/official-alert.ts';

export const alertOf = (event: string, fromMs: number | null, toMs: number | null): OfficialAlert => ({
  id: `urn:test:${event}`,
  event,
  fromMs,
  toMs,
  sentMs: fromMs,
  senderName: 'NWS Testville',
  headline: `${event} for the test county`,
  possible: false,
});

export const alertsSeen = (fetchedAtMs: number, alerts: readonly OfficialAlert[] = []): AlertsSeen => ({
  fetchedAtMs,
  complete: true,
  alerts,
});
