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
  /** Hashes of the kept documents that the plan was made from; null where none are kept. */
  readonly madeFrom: MadeFrom | null;
}

export interface MadeFrom {
  readonly definition: string;
  readonly document: string;
  readonly alerts: string;
  /** The forecast point's own zone. */
  readonly pointTimeZone: string;
}

export function headOf(plan: Plan, { reader, demo, madeFrom }: Wanted) {
  const { site, forecast, alertsFetchedAtMs, nowMs, goodUntilMs, findings } = plan;
  const at = (ms: number) => rfc3339(ms, site.timeZone);
  return {
    site: site.id,
    name: site.name,
    timeZone: site.timeZone,
    madeAt: forecast.issuedAtMs === null ? null : at(forecast.issuedAtMs),
    fetchedAt: at(forecast.fetchedAtMs),
    alertsReadAt: alertsFetchedAtMs ? at(alertsFetchedAtMs) : null,
    workedOutAt: at(nowMs),
    goodUntil: Number.isFinite(goodUntilMs) ? at(goodUntilMs) : null,
    stale: findings.some((f) => STALE.has(f.code)),
    demo,
    madeFrom: madeFrom && {
      definition: madeFrom.definition,
      document: madeFrom.document,
      alerts: madeFrom.alerts,
      pointTimeZone: madeFrom.pointTimeZone,
    },
    units: reader.units,
    lang: reader.language,
    caution: wordsFor(reader.language).caution,
  };
}
