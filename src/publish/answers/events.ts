// Events of the log → their published form.

import type { LoggedEvent } from '#core/events/event.ts';
import type { Transition } from '#core/notices/notice.ts';
import type { PlanChange } from '#core/plan/diff-plans.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import type { BurnTap } from '#core/watch/burn.ts';
import type { BurnIncident } from '#core/watch/burn-incident.ts';
import type { EventAnswer } from '#publish/wire-events.ts';
import { sayEvent } from '#publish/wording/say-event.ts';
import type { Reader } from '#publish/wording/words.ts';
import type { SayCondition } from './now.ts';

/** What of a site goes with its events. */
export interface EventSite {
  readonly name: string;
  /** Latitude, longitude [deg]. */
  readonly at: readonly [number, number];
  readonly externalRef: string | null;
}

/** `site`: as it is defined now; null where it is no more, or where the event is of the whole organisation. */
export function eventAnswer(
  event: LoggedEvent,
  site: EventSite | null,
  reader: Reader,
  say: SayCondition,
): EventAnswer {
  const { timeZone } = reader;
  return {
    id: String(event.position),
    type: event.kind,
    at: rfc3339(event.atMs, timeZone),
    site: event.site === null ? null : event.site.slice(event.organisation.length + 1),
    siteName: site?.name ?? null,
    place: site && { lat: site.at[0], lon: site.at[1] },
    externalRef: site?.externalRef ?? null,
    incidentRef: refOf(event),
    subject: event.subject,
    validUntil: event.validUntilMs === null ? null : rfc3339(event.validUntilMs, timeZone),
    verdict: event.kind.startsWith('notice-') ? (event.data as Transition).verdict : null,
    text: sayEvent(event, reader, say),
    data: dataOf(event, timeZone),
  };
}

/** As it was when the event came about. */
function refOf({ kind, data }: LoggedEvent): string | null {
  if (kind === 'burn-incident') return (data as BurnIncident).reference;
  return (data as { incidentRef?: string } | null)?.incidentRef ?? null;
}

function dataOf({ kind, data }: LoggedEvent, timeZone: string): Record<string, unknown> {
  const at = (ms: number | null) => (ms === null ? null : rfc3339(ms, timeZone));
  if (kind === 'burn-incident') {
    const { burn, reference, by } = data as BurnIncident;
    return { burn, reference, by };
  }
  if (kind.startsWith('burn-')) {
    const { id, burn, tap, tappedAtMs, by, from, corrects, withdraws, note } = data as BurnTap;
    return { burn, tap, id, tappedAt: at(tappedAtMs), by, from, corrects, withdraws, note };
  }
  if (kind.startsWith('notice-')) {
    const {
      condition,
      kind: step,
      verdict,
      was,
      episode,
      number,
      raisedAtMs,
      inhibited,
    } = data as Transition;
    const { code, subject, truth, basis, asOfMs } = condition;
    const told = { code, about: subject, truth, basis, asOf: at(asOfMs), raisedAt: at(raisedAtMs) };
    return { ...told, step, verdict, was, episode, number, untold: inhibited };
  }
  if (kind.startsWith('order-') || kind === 'subscription-ended') return data as Record<string, unknown>;
  const { plan, cause, changes } = data as { plan: string; cause: string; changes: readonly PlanChange[] };
  return {
    plan,
    cause,
    changes: changes.map((change) => {
      if (change.kind !== 'time') return change;
      const { fromMs, toMs, ...rest } = change;
      return { ...rest, from: at(fromMs), to: at(toMs) };
    }),
  };
}
