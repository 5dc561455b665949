// Charging is a promise: nothing may force the fire out before it has burned down and is covered.

import { putOutMs } from '#core/site/site.ts';
import { MINUTE_MS, subtractUnited, unite } from '#core/units/time.ts';
import { type Finding, finding, forcesOut } from './finding.ts';
import type { RuleContext } from './rule.ts';

/**
 * Holds charging for burn-down + cover before everything that forces the fire out: a stop, smoke on a protected
 * place, or a span of which nobody can say. Spans that touch are one, so that each gives one finding.
 */
export function burnDown({ site, calendar }: RuleContext, found: readonly Finding[]): readonly Finding[] {
  const aheadMs = putOutMs(site.burn);
  // What comes after the judged span was not looked at: nobody can say.
  const beyond = { fromMs: calendar.span.toMs, toMs: calendar.span.toMs + aheadMs };
  const forcing = [...found.filter(forcesOut), finding('not-judged', 'hold', beyond, {}, true)];
  const findings: Finding[] = [];
  for (const out of unite(forcing)) {
    const fromMs = Math.max(calendar.span.fromMs, out.fromMs - aheadMs);
    if (fromMs >= out.fromMs) continue;
    const causing = forcing.filter((f) => f.fromMs === out.fromMs);
    const causes = [...new Set(causing.map((f) => f.code))];
    const figures = { causes, atMs: out.fromMs, neededMin: aheadMs / MINUTE_MS };
    const unknown = causing.every((f) => f.unknown);
    findings.push(finding('burn-down-ahead', 'hold', { fromMs, toMs: out.fromMs }, figures, unknown));
  }
  return findings;
}

/** A go too short to be worth lighting is a hold that says so. */
export function shortestRun({ site }: RuleContext, found: readonly Finding[]): readonly Finding[] {
  // A go in which kindling does not even end leaves no time for a first charge. Goes are whole minutes long.
  const neededMin = Math.max(site.burn.shortestRunMin, Math.floor(site.burn.kindlingMin) + 1);
  const barred = unite(found.filter((f) => f.verdict !== 'go'));
  const findings: Finding[] = [];
  for (const met of unite(found.filter((f) => f.code === 'within-limits'))) {
    for (const go of subtractUnited(met, barred)) {
      const lengthMin = (go.toMs - go.fromMs) / MINUTE_MS;
      if (lengthMin < neededMin) findings.push(finding('short-run', 'hold', go, { lengthMin, neededMin }));
    }
  }
  return findings;
}
