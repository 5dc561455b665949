// The last line of defence: something that is judged by, and is no number, makes everything hold. The configuration refuses
// such things at the door; a comparison with what is no number must still never come out as go.

import { type Finding, finding } from './finding.ts';
import type { RuleContext } from './rule.ts';

export function soundInput(context: RuleContext): readonly Finding[] {
  if (Number.isFinite(sumOf(context))) return [];
  const what = Object.entries(numbersOf(context))
    .filter(([, value]) => !Number.isFinite(value))
    .map(([name]) => name);
  return [finding('input-unusable', 'hold', context.calendar.span, { what }, true)];
}

/** The sum of all: what is no number, or infinite, shows in it. Which one it is matters only then. */
function sumOf({ site, nowMs }: RuleContext): number {
  const { burn, smoke, windShift, quality, daylight, place } = site;
  let sum = nowMs + place.latDeg + place.lonDeg + smoke.reachM + smoke.unsureBelowMps;
  sum += burn.warmUpMin + burn.kindlingMin + burn.burnDownMin + burn.coverMin + burn.shortestRunMin;
  sum += windShift.atLeastDeg + windShift.atLeastMps + windShift.withinHours;
  sum += quality.warnAfterMin + quality.holdAfterMin + quality.alertsHoldAfterMin;
  if (daylight) sum += daylight.lightUpAfterSunriseMin + daylight.outBeforeSunsetMin;
  for (const p of site.protected) sum += p.fromBearingDeg + p.toBearingDeg + p.distanceM + p.marginDeg;
  return sum;
}

function numbersOf({ site, nowMs }: RuleContext): Record<string, number> {
  const numbers: Record<string, number> = {
    now: nowMs,
    latDeg: site.place.latDeg,
    lonDeg: site.place.lonDeg,
  };
  for (const group of [site.burn, site.smoke, site.windShift, site.quality, site.daylight ?? {}]) {
    Object.assign(numbers, group);
  }
  for (const { name, fromBearingDeg, toBearingDeg, distanceM, marginDeg } of site.protected) {
    numbers[`bearing of ${name}`] = fromBearingDeg + toBearingDeg + marginDeg;
    numbers[`distance of ${name}`] = distanceM;
  }
  return numbers;
}
