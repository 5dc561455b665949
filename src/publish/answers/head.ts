// What every answer begins with: whose, how old, until when it is good, demo or not, and the caution.

import type { Plan } from '#core/plan/plan.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import { wordsFor } from '#publish/wording/say.ts';
import type { Reader } from '#publish/wording/words.ts';

/** Findings that make the whole answer stale. */
const STALE = new Set(['forecast-stale', 'forecast-undated', 'forecast-future', 'alerts-unknown']);

export interface Wanted {
  readonly reader: Reader;
  readonly demo: boolean;
}

export function headOf(plan: Plan, { reader, demo }: Wanted) {
  const { site, forecast, nowMs, goodUntilMs, findings } = plan;
  const at = (ms: number) => rfc3339(ms, site.timeZone);
  return {
    site: site.id,
    name: site.name,
    timeZone: site.timeZone,
    madeAt: forecast.issuedAtMs === null ? null : at(forecast.issuedAtMs),
    fetchedAt: at(forecast.fetchedAtMs),
    workedOutAt: at(nowMs),
    goodUntil: Number.isFinite(goodUntilMs) ? at(goodUntilMs) : null,
    stale: findings.some((f) => STALE.has(f.code)),
    demo,
    units: reader.units,
    lang: reader.language,
    caution: wordsFor(reader.language).caution,
  };
}
