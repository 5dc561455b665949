// Taps of a crew and transitions of notices → events.

import type { Transition, TransitionKind } from '#core/notices/notice.ts';
import type { BurnTap } from '#core/watch/burn.ts';
import type { BurnIncident } from '#core/watch/burn-incident.ts';
import { type EventKind, type NewEvent, organisationOf } from './event.ts';

/** A late tap is told when it comes, with the time at which it was tapped. */
export function tapEvent(site: string, tap: BurnTap): NewEvent {
  const { burn, receivedAtMs, ...data } = tap;
  return {
    organisation: organisationOf(site),
    site,
    kind: tap.corrects === null ? `burn-${tap.tap}` : 'burn-corrected',
    subject: burn,
    atMs: receivedAtMs,
    validUntilMs: null,
    data: { ...data, burn },
  };
}

/** What a dispatch center calls a burn. */
export const incidentEvent = (site: string, incident: BurnIncident): NewEvent => ({
  organisation: organisationOf(site),
  site,
  kind: 'burn-incident',
  subject: incident.burn,
  atMs: incident.atMs,
  validUntilMs: null,
  data: incident,
});

const KIND: Readonly<Record<TransitionKind, EventKind>> = {
  raised: 'notice-raised',
  worse: 'notice-updated',
  eased: 'notice-updated',
  unsteady: 'notice-updated',
  unsure: 'notice-updated',
  still: 'notice-updated',
  over: 'notice-ended',
  corrected: 'notice-ended',
};

export function transitionEvent(transition: Transition): NewEvent {
  const { site, notice, kind, atMs, condition } = transition;
  const isOver = KIND[kind] === 'notice-ended';
  return {
    organisation: organisationOf(site),
    site,
    kind: KIND[kind],
    subject: notice,
    atMs,
    validUntilMs: isOver ? null : condition.validUntilMs,
    data: transition,
  };
}
