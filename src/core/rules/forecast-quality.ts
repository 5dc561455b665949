// Missing, stale, undated or future-dated forecasts never give go: each is a hold that says why.

import { ELEMENT_NAMES, type Element } from '#core/series/elements.ts';
import { endOf, missingReasonAt } from '#core/series/hourly-series.ts';
import { intersect, MINUTE_MS, type Span } from '#core/units/time.ts';
import { type Finding, finding } from './finding.ts';
import { hoursSpan, judgedHours, type RuleContext, spansOfWhen } from './rule.ts';

/** A clock may run ahead of the source's by so much: such a stamp is read as now, and told. */
export const CLOCK_SKEW_MIN = 10;

export function forecastQuality(context: RuleContext): readonly Finding[] {
  return [
    ...ageFindings(context),
    ...faultFindings(context),
    ...edgeFindings(context),
    ...missingFindings(context),
  ];
}

function ageFindings({ forecast, nowMs, site, calendar }: RuleContext): Finding[] {
  const { span } = calendar;
  if (forecast.issuedAtMs === null || !Number.isFinite(forecast.issuedAtMs))
    return [finding('forecast-undated', 'hold', span, {}, true)];
  const ageMin = Math.floor((nowMs - forecast.issuedAtMs) / MINUTE_MS);
  if (ageMin < -CLOCK_SKEW_MIN)
    return [finding('forecast-future', 'hold', span, { aheadMin: -ageMin }, true)];
  if (ageMin < 0) return [finding('forecast-ahead', 'go', span, { aheadMin: -ageMin })];
  const { warnAfterMin, holdAfterMin } = site.quality;
  // Also where one of the two is no number.
  if (!(ageMin < holdAfterMin))
    return [finding('forecast-stale', 'hold', span, { ageMin, holdAfterMin }, true)];
  if (ageMin >= warnAfterMin) return [finding('forecast-aging', 'go', span, { ageMin, warnAfterMin })];
  return [];
}

function faultFindings({ forecast, calendar }: RuleContext): Finding[] {
  if (forecast.faults.length === 0) return [];
  const kinds = [...new Set(forecast.faults.map((f) => f.kind))].sort();
  const count = forecast.faults.reduce((sum, f) => sum + f.count, 0);
  return [finding('forecast-faults', 'go', calendar.span, { count, kinds })];
}

function edgeFindings({ series, calendar }: RuleContext): Finding[] {
  const { fromMs, toMs } = calendar.span;
  const findings: Finding[] = [];
  const beginsMs = series.startMs;
  const endsMs = endOf(series);
  if (fromMs < beginsMs) {
    const span = { fromMs, toMs: Math.min(toMs, beginsMs) };
    findings.push(finding('before-forecast', 'hold', span, { beginsMs }, true));
  }
  if (toMs > endsMs) {
    const span = { fromMs: Math.max(fromMs, endsMs), toMs };
    findings.push(finding('beyond-horizon', 'hold', span, { endsMs }, true));
  }
  return findings;
}

/** Elements that some limit or rule cannot do without, with the spans in which it needs them. */
function neededElements(context: RuleContext): Map<Element, readonly Span[] | null> {
  const needed = new Map<Element, readonly Span[] | null>();
  for (const { limit } of context.scores) {
    const spans = spansOfWhen(limit.when, context.calendar);
    const known = needed.get(limit.element);
    needed.set(limit.element, known === null || spans === null ? null : [...(known ?? []), ...spans]);
  }
  if (context.site.protected.length > 0) {
    needed.set('windDirection', null);
    needed.set('windSpeed', null);
  }
  return needed;
}

function missingFindings(context: RuleContext): Finding[] {
  const findings: Finding[] = [];
  const { first, beyond } = judgedHours(context);
  const needed = neededElements(context);
  for (const element of ELEMENT_NAMES) {
    const within = needed.get(element);
    if (within === undefined) continue;
    const { missing } = context.series.columns[element];
    let h = first;
    while (h < beyond) {
      if (missing[h] === 0) {
        h += 1;
        continue;
      }
      const from = h;
      while (h < beyond && missing[h] === missing[from]) h += 1;
      const figures = { element, why: missingReasonAt(context.series, element, from) };
      const span = hoursSpan(context.series, from, h);
      const parts =
        within === null ? [span] : within.map((w) => intersect(span, w)).filter((s) => s !== null);
      for (const part of parts) findings.push(finding('element-missing', 'hold', part, figures, true));
    }
  }
  return findings;
}
