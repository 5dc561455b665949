// Hours on the clock that a permit or rule names: no light-up before, no charge after, out by.

import { clockTimeOn } from '#core/site/local-day.ts';
import type { ClockTime } from '#core/units/local-time.ts';
import type { Span } from '#core/units/time.ts';
import { type Finding, finding } from './finding.ts';
import type { RuleContext } from './rule.ts';

/**
 * An end holds until somebody may light again: until `lightFrom` on the next day, or where there is none until the next
 * sunrise. Midnight opens nothing.
 */
export function clockHours({ site, limits, calendar }: RuleContext): readonly Finding[] {
  const findings: Finding[] = [];
  for (const { lightFrom, lastChargeBy, outBy, source } of limits.clock) {
    for (const [i, day] of calendar.days.entries()) {
      // A doubled clock time in autumn is read the strict way: late for a beginning, early for an end.
      const at = (clock: ClockTime, doubled: 'earlier' | 'later') =>
        clockTimeOn(day, clock, site.timeZone, doubled);
      if (lightFrom !== null) {
        const span = { fromMs: day.fromMs, toMs: at(lightFrom, 'later') };
        push(findings, 'clock-before', 'hold', span, lightFrom, source);
      }
      const ends = [
        ['clock-charge', 'hold', lastChargeBy],
        ['clock-out', 'stop', outBy],
      ] as const;
      for (const [code, verdict, clock] of ends) {
        if (clock === null) continue;
        const fromMs = at(clock, 'earlier');
        const nextDay = calendar.days[i + 1];
        const sunriseMs = calendar.daylight.find((light) => light.fromMs > fromMs)?.fromMs ?? day.toMs;
        const again = lightFrom === null || !nextDay ? sunriseMs : day.toMs;
        push(findings, code, verdict, { fromMs, toMs: Math.max(day.toMs, again) }, clock, source);
      }
    }
  }
  return findings;
}

function push(
  findings: Finding[],
  code: 'clock-before' | 'clock-charge' | 'clock-out',
  verdict: 'hold' | 'stop',
  span: Span,
  clock: ClockTime,
  source: string,
): void {
  if (span.fromMs < span.toMs) findings.push(finding(code, verdict, span, { clock, source }));
}
