// Burns, observations, notices and messages → their published forms.

import type { Silence } from '#core/notices/silence.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import { incidentRef } from '#core/watch/burn-incident.ts';
import { type Observation, speedOf } from '#core/watch/observation.ts';
import { lastBriefing } from '#core/watch/wind-briefing.ts';
import type { BurnRecord, MessageSeen } from '#publish/watch-desk.ts';
import type { BurnAnswer, MessageAnswer, ObservationAnswer, SilenceAnswer } from '#publish/wire-watch.ts';

/** The part of a site key that people know. */
const idOf = (siteKey: string): string => siteKey.slice(siteKey.indexOf('/') + 1);

const orNull = (ms: number | null, zone: string): string | null => (ms === null ? null : rfc3339(ms, zone));

export function burnAnswer(
  { burn, taps, replaced, briefings, incidents }: BurnRecord,
  zone: string,
): BurnAnswer {
  return {
    id: burn.id,
    site: idOf(burn.site),
    state: burn.state,
    openedAt: rfc3339(burn.openedAtMs, zone),
    litAt: orNull(burn.litAtMs, zone),
    since: rfc3339(burn.sinceMs, zone),
    closedAt: orNull(burn.closedAtMs, zone),
    incidentRef: incidentRef(incidents),
    briefedFrom: lastBriefing(briefings, burn)?.fromDeg ?? burn.briefedFromDeg,
    briefings: briefings.map(({ atMs, by, fromDeg, observedAtMs, message }) => ({
      at: rfc3339(atMs, zone),
      by,
      windFrom: fromDeg,
      observedAt: rfc3339(observedAtMs, zone),
      message,
    })),
    taps: taps.map(({ id, tap, tappedAtMs, receivedAtMs, by, from, corrects, withdraws, note }) => ({
      id,
      tap,
      tappedAt: rfc3339(tappedAtMs, zone),
      receivedAt: rfc3339(receivedAtMs, zone),
      by,
      from,
      corrects,
      withdraws,
      note,
      counts: !(replaced.has(id) || withdraws),
    })),
  };
}

export const observationAnswer = (o: Observation, zone: string): ObservationAnswer => ({
  station: o.station,
  observedAt: rfc3339(o.observedAtMs, zone),
  receivedAt: rfc3339(o.receivedAtMs, zone),
  wind: o.wind.kind,
  windFrom: o.wind.kind === 'blowing' ? o.wind.fromDeg : null,
  windSpeedMps: speedOf(o.wind),
  windHeightM: o.windHeightM,
  windAveragingS: o.windAveragingS,
  gustMps: o.gustMps,
  relativeHumidityPct: o.relativeHumidityPct,
  temperatureC: o.temperatureC,
  pressurePa: o.pressurePa,
  thunder: o.thunder,
  quality: o.quality,
});

export function messageAnswer(message: MessageSeen, zone: string): MessageAnswer {
  return {
    id: message.id,
    site: idOf(message.site),
    at: rfc3339(message.atMs, zone),
    kind: message.kind,
    verdict: message.verdict,
    text: message.text,
    validUntil: rfc3339(message.validUntilMs, zone),
    needsAnswer: message.needsAnswer,
    answers: message.answers.map(({ contact, answer, atMs, via }) => ({
      contact,
      answer,
      at: rfc3339(atMs, zone),
      via,
    })),
    deliveries: message.deliveries.map((d) => ({
      contact: d.contact,
      channel: d.channel,
      step: d.step,
      round: d.round,
      outcome: d.outcome,
      reason: d.reason,
      dueAt: rfc3339(d.dueAtMs, zone),
      settledAt: orNull(d.settledAtMs, zone),
      deliveredAt: orNull(d.deliveredAtMs, zone),
    })),
  };
}

export const silenceAnswer = (s: Silence, zone: string): SilenceAnswer => ({
  id: s.id,
  site: idOf(s.site),
  code: s.code,
  role: s.role,
  from: rfc3339(s.fromMs, zone),
  until: rfc3339(s.untilMs, zone),
  reason: s.reason,
  by: s.by,
  endedAt: orNull(s.endedAtMs, zone),
});
