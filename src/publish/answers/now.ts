// What stands at a site at this moment → its published form.

import type { Notice } from '#core/notices/notice.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import type { Condition } from '#core/watch/condition.ts';
import type { LiveNow } from '#publish/watch-desk.ts';
import type { ConditionAnswer, NoticeAnswer, NowAnswer } from '#publish/wire-watch.ts';
import { say as sayFinding, wordsFor } from '#publish/wording/say.ts';
import type { Reader } from '#publish/wording/words.ts';
import { burnAnswer, observationAnswer, silenceAnswer } from './watch.ts';

/** Says a condition in one sentence. */
export type SayCondition = (siteKey: string, condition: Condition, reader: Reader) => string;

export function nowAnswer(live: LiveNow, reader: Reader, demo: boolean, say: SayCondition): NowAnswer {
  const zone = reader.timeZone;
  const words = wordsFor(reader.language);
  const { site, day, conditions, verdict, unknown, findings, tooLateUntilMs } = live;
  const times = day?.times ?? null;
  const at = (ms: number | undefined): string | null => (ms === undefined ? null : rfc3339(ms, zone));
  // Where nobody can say, that is the ground: what it is that nobody can say.
  const gravest =
    conditions.find((c) => c.truth === 'true' && c.verdict === verdict) ??
    (unknown ? conditions.find((c) => c.verdict === verdict) : undefined);
  const [finding] = findings;
  const ground = (): string => {
    if (gravest) return say(site.key, gravest, reader);
    if (verdict === 'hold' && tooLateUntilMs !== null) return words.tooLateToLight(tooLateUntilMs, reader);
    return finding ? sayFinding(finding, reader) : words.orders[verdict];
  };
  return {
    site: site.id,
    name: site.name,
    timeZone: zone,
    asOf: rfc3339(live.asOfMs, zone),
    verdict,
    unknown,
    whatToDo: unknown ? words.cannotSay : words.orders[verdict],
    text: ground(),
    planVerdict: live.planVerdict,
    burn: live.burn && burnAnswer(live.burn, zone),
    lightUp: at(times?.lightUpMs),
    lastCharge: at(times?.lastChargeMs),
    coveredBy: at(times?.coveredByMs),
    observation: live.observation && observationAnswer(live.observation, zone),
    conditions: conditions.map((c) => conditionAnswer(site.key, c, reader, say)),
    notices: live.notices.map((n) => noticeAnswer(n, reader, say)),
    silences: live.silences.map((silence) => silenceAnswer(silence, zone)),
    forecastMadeAt: live.forecastMadeAtMs === null ? null : rfc3339(live.forecastMadeAtMs, zone),
    goodUntil: rfc3339(live.goodUntilMs, zone),
    demo,
    caution: words.caution,
  };
}

export const conditionAnswer = (
  siteKey: string,
  c: Condition,
  reader: Reader,
  say: SayCondition,
): ConditionAnswer => ({
  code: c.code,
  subject: c.subject,
  truth: c.truth,
  verdict: c.verdict,
  basis: c.basis,
  asOf: c.asOfMs === null ? null : rfc3339(c.asOfMs, reader.timeZone),
  text: say(siteKey, c, reader),
});

export function noticeAnswer(n: Notice, reader: Reader, say: SayCondition): NoticeAnswer {
  const at = (ms: number | null): string | null => (ms === null ? null : rfc3339(ms, reader.timeZone));
  return {
    id: `${n.key} ${n.episode}`,
    site: n.site.slice(n.site.indexOf('/') + 1),
    code: n.condition.code,
    subject: n.condition.subject,
    phase: n.phase,
    since: rfc3339(n.sinceMs, reader.timeZone),
    raisedAt: at(n.raisedAtMs),
    verdict: n.told,
    acknowledgedAt: at(n.acknowledgedAtMs),
    acknowledgedBy: n.acknowledgedBy,
    condition: conditionAnswer(n.site, n.condition, reader, say),
  };
}
