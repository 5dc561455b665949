// Nobody there, no fire; and the blower runs before the pit is lit.

import { MINUTE_MS, subtract, unite } from '#core/units/time.ts';
import { type Finding, finding } from './finding.ts';
import type { RuleContext } from './rule.ts';

export function shift({ site, calendar }: RuleContext): readonly Finding[] {
  const findings: Finding[] = [];
  for (const off of subtract(calendar.span, calendar.shifts))
    findings.push(finding('off-shift', 'stop', off, {}));
  const { warmUpMin } = site.burn;
  if (warmUpMin <= 0) return findings;
  // One shift that follows on another finds the blower running.
  for (const worked of unite(calendar.shifts)) {
    const toMs = Math.min(worked.toMs, worked.fromMs + warmUpMin * MINUTE_MS);
    findings.push(finding('warming-up', 'hold', { fromMs: worked.fromMs, toMs }, { warmUpMin }));
  }
  return findings;
}
