// Hazards and weather that the forecast grid itself flags. The grid's word adds to the official alerts, never replaces them.

import { intersect } from '#core/units/time.ts';
import { eventOfVtec } from './event-of-vtec.ts';
import { type Finding, finding } from './finding.ts';
import { type RuleContext, verdictOfEvent } from './rule.ts';

/** Weather worth a word beside the limits. */
const NOTED = new Set([
  'thunderstorms',
  'dry_thunderstorms',
  'smoke',
  'fog',
  'ice_fog',
  'blowing_dust',
  'haze',
]);

export function gridHazards({ forecast, calendar, site }: RuleContext): readonly Finding[] {
  const findings: Finding[] = [];
  for (const hazard of forecast.hazards) {
    const span = intersect(calendar.span, hazard);
    if (span === null) continue;
    const { phenomenon, significance } = hazard;
    const event = eventOfVtec(phenomenon, significance);
    const verdict = event === null ? 'go' : verdictOfEvent(site.alertVerdicts, event);
    findings.push(finding('grid-hazard', verdict, span, { event, phenomenon, significance }));
  }
  for (const { weather, coverage, ...when } of forecast.weather) {
    const span = intersect(calendar.span, when);
    if (span !== null && NOTED.has(weather))
      findings.push(finding('grid-weather', 'go', span, { weather, coverage }));
  }
  return findings;
}
