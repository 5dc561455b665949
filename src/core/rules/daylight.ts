// No light-up before sunrise + x, fire out by sunset - y, no fire in the dark; unless the site may burn by night.

import { MINUTE_MS } from '#core/units/time.ts';
import { type Finding, finding } from './finding.ts';
import type { RuleContext } from './rule.ts';

export function daylight({ site, calendar }: RuleContext): readonly Finding[] {
  const margins = site.daylight;
  if (margins === null) return [];
  const findings: Finding[] = [];
  for (const dark of calendar.night) findings.push(finding('dark', 'stop', dark, {}));
  for (const light of calendar.daylight) {
    if (light.beginsAtSunrise && margins.lightUpAfterSunriseMin > 0) {
      const toMs = Math.min(light.toMs, light.fromMs + margins.lightUpAfterSunriseMin * MINUTE_MS);
      const figures = { sunriseMs: light.fromMs, afterMin: margins.lightUpAfterSunriseMin };
      findings.push(finding('soon-after-sunrise', 'hold', { fromMs: light.fromMs, toMs }, figures));
    }
    if (light.endsAtSunset && margins.outBeforeSunsetMin > 0) {
      const fromMs = Math.max(light.fromMs, light.toMs - margins.outBeforeSunsetMin * MINUTE_MS);
      const figures = { sunsetMs: light.toMs, beforeMin: margins.outBeforeSunsetMin };
      findings.push(finding('near-sunset', 'stop', { fromMs, toMs: light.toMs }, figures));
    }
  }
  return findings;
}
