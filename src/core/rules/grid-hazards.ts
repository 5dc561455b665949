// Hazards and weather that the forecast grid itself flags. The grid's word adds to the official alerts, never replaces them.

import { intersect } from '#core/units/time.ts';
import { type Finding, finding } from './finding.ts';
import { type RuleContext, verdictOfEvent } from './rule.ts';

/** Phenomenon and significance (NWS Instruction 10-1703, VTEC) → the event's name, for events that concern burning. */
const EVENT_OF: Readonly<Record<string, string>> = {
  'FW.W': 'Red Flag Warning',
  'FW.A': 'Fire Weather Watch',
  'HW.W': 'High Wind Warning',
  'HW.A': 'High Wind Watch',
  'WI.Y': 'Wind Advisory',
  'SM.Y': 'Dense Smoke Advisory',
  'AS.Y': 'Air Stagnation Advisory',
  'AQ.Y': 'Air Quality Alert',
  'SV.W': 'Severe Thunderstorm Warning',
  'TO.W': 'Tornado Warning',
  'SV.A': 'Severe Thunderstorm Watch',
  'TO.A': 'Tornado Watch',
};

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
    const event = EVENT_OF[`${phenomenon}.${significance}`.toUpperCase()] ?? null;
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
