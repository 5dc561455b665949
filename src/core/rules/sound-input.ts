// The last line of defence: something that is judged by, and is no number, makes everything hold. The configuration refuses
// such things at the door; a comparison with what is no number must still never come out as go.

import { type Finding, finding } from './finding.ts';
import type { RuleContext } from './rule.ts';

export function soundInput(context: RuleContext): readonly Finding[] {
  const what = Object.entries(numbersOf(context))
    .filter(([, value]) => !Number.isFinite(value))
    .map(([name]) => name);
  return what.length === 0 ? [] : [finding('input-unusable', 'hold', context.calendar.span, { what }, true)];
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
