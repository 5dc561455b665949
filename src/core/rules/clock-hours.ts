// Hours on the clock that a permit or rule names: no light-up before, no charge after, out by.

import { clockTimeOn, type LocalDay } from '#core/site/local-day.ts';
import type { ClockTime } from '#core/units/local-time.ts';
import type { Span } from '#core/units/time.ts';
import { type Finding, finding } from './finding.ts';
import type { RuleContext } from './rule.ts';

export function clockHours({ site, limits, calendar }: RuleContext): readonly Finding[] {
  const findings: Finding[] = [];
  for (const { lightFrom, lastChargeBy, outBy, source } of limits.clock) {
    for (const day of calendar.days) {
      // A doubled clock time in autumn is read the strict way: late for a beginning, early for an end.
      const at = (clock: ClockTime, doubled: 'earlier' | 'later') =>
        clockTimeOn(day, clock, site.timeZone, doubled);
      if (lightFrom !== null) {
        push(
          findings,
          'clock-before',
          'hold',
          day,
          { fromMs: day.fromMs, toMs: at(lightFrom, 'later') },
          lightFrom,
          source,
        );
      }
      if (lastChargeBy !== null) {
        push(
          findings,
          'clock-charge',
          'hold',
          day,
          { fromMs: at(lastChargeBy, 'earlier'), toMs: day.toMs },
          lastChargeBy,
          source,
        );
      }
      if (outBy !== null) {
        push(
          findings,
          'clock-out',
          'stop',
          day,
          { fromMs: at(outBy, 'earlier'), toMs: day.toMs },
          outBy,
          source,
        );
      }
    }
  }
  return findings;
}

function push(
  findings: Finding[],
  code: 'clock-before' | 'clock-charge' | 'clock-out',
  verdict: 'hold' | 'stop',
  day: LocalDay,
  span: Span,
  clock: ClockTime,
  source: string,
): void {
  const inside = { fromMs: Math.max(day.fromMs, span.fromMs), toMs: Math.min(day.toMs, span.toMs) };
  if (inside.fromMs < inside.toMs) findings.push(finding(code, verdict, inside, { clock, source }));
}
