// What the desks know of a past day → what its page shows.

import type { Transition } from '#core/notices/notice.ts';
import type { PlanChange } from '#core/plan/diff-plans.ts';
import type { Plan } from '#core/plan/plan.ts';
import { CLASS, scoreHours } from '#core/score/score-hours.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import { type Observation, speedOf } from '#core/watch/observation.ts';
import type { SayCondition } from '#publish/answers/now.ts';
import { messageAnswer, observationAnswer } from '#publish/answers/watch.ts';
import type { PlanMade } from '#publish/history-desk.ts';
import type { Moved, NoticedLine, ObservedLine, PlanLine, ToldLine } from '#publish/page/history-view.ts';
import type { MessageSeen } from '#publish/watch-desk.ts';
import type { Reader } from '#publish/wording/words.ts';

const orNull = (ms: number | null | undefined, zone: string): string | null =>
  ms == null ? null : rfc3339(ms, zone);

export function planLine(made: PlanMade, zone: string): PlanLine {
  const { day, changes } = made;
  return {
    id: made.planId,
    madeAt: rfc3339(made.madeAtMs, zone),
    cause: made.cause,
    document: made.document.slice(0, 12),
    receivedAt: rfc3339(made.receivedAtMs, zone),
    verdict: day.verdict,
    cannotSay: day.cannotSay,
    lightUp: orNull(day.times?.lightUp, zone),
    lastCharge: orNull(day.times?.lastCharge, zone),
    coveredBy: orNull(day.times?.coveredBy, zone),
    moved: changes === null ? null : changes.map((change) => movedOf(change, zone)),
    program: made.program,
  };
}

function movedOf(change: PlanChange, zone: string): Moved {
  if (change.kind === 'verdict') return { kind: 'verdict', from: change.from, to: change.to };
  if (change.kind !== 'time') return { kind: change.kind };
  const { time, fromMs, toMs, movedMin } = change;
  return { kind: 'time', time, from: orNull(fromMs, zone), to: orNull(toMs, zone), movedMin };
}

export const toldLine = (message: MessageSeen, zone: string): ToldLine => ({
  ...messageAnswer(message, zone),
  said: message.deliveries.map(({ said }) => said),
});

export const noticedLine = (t: Transition, reader: Reader, say: SayCondition): NoticedLine => ({
  at: rfc3339(t.atMs, reader.timeZone),
  kind: t.kind,
  verdict: t.verdict,
  untold: t.inhibited,
  text: say(t.site, t.condition, reader),
});

/** `plan`: whose limits it is held against; null: against none. */
export function observedLine(o: Observation, plan: Plan | null, zone: string): ObservedLine {
  const values = {
    windSpeed: speedOf(o.wind),
    windGust: o.gustMps,
    relativeHumidity: o.relativeHumidityPct,
  };
  const beyond = (plan?.limits.elements ?? []).flatMap((limit): ObservedLine['beyond'][number][] => {
    const { element, source } = limit;
    if (element !== 'windSpeed' && element !== 'windGust' && element !== 'relativeHumidity') return [];
    const value = values[element];
    if (value === null) return [];
    const [found] = scoreHours(
      { values: Float64Array.of(value), missing: new Uint8Array(1), derived: null },
      limit,
    ).classes;
    if (found === CLASS.stop) return [{ value: element, class: 'stop', source }];
    return found === CLASS.hold ? [{ value: element, class: 'hold', source }] : [];
  });
  return { observation: observationAnswer(o, zone), beyond };
}
