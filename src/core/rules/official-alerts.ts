// Official alerts → findings by the site's event table. Alerts that could not be read are a hold: none seen is not none.

import { intersect, MINUTE_MS, openSpan } from '#core/units/time.ts';
import { type Finding, finding } from './finding.ts';
import { CLOCK_SKEW_MIN } from './forecast-quality.ts';
import { type RuleContext, verdictOfEvent } from './rule.ts';

/**
 * Every alert whose time touches the judged span; one without a readable beginning or end is open on that side.
 * Events that the table does not list are advice.
 */
export function officialAlerts(context: RuleContext): readonly Finding[] {
  const { alerts, calendar, site } = context;
  const findings: Finding[] = [...unknownFindings(context)];
  for (const alert of alerts?.alerts ?? []) {
    const span = intersect(calendar.span, openSpan(alert.fromMs, alert.toMs));
    if (span === null) continue;
    const unreadable = alert.event === UNREADABLE_ALERT;
    const verdict = unreadable ? 'hold' : verdictOfEvent(site.alertVerdicts, alert.event);
    const figures = {
      event: alert.event,
      sender: alert.senderName,
      headline: alert.headline,
      id: alert.id,
      possible: alert.possible,
      openEnded: alert.toMs === null,
    };
    findings.push(finding('official-alert', verdict, span, figures, unreadable));
  }
  return findings;
}

/** Event name that a source gives to an alert which it cannot read. */
export const UNREADABLE_ALERT = 'unreadable alert';

function unknownFindings({ alerts, nowMs, site, calendar }: RuleContext): Finding[] {
  const say = (why: 'never-read' | 'incomplete' | 'old' | 'future', ageMin: number) => [
    finding('alerts-unknown', 'hold', calendar.span, { why, ageMin }, true),
  ];
  if (alerts === null) return say('never-read', 0);
  const ageMin = Math.floor((nowMs - alerts.fetchedAtMs) / MINUTE_MS);
  if (!alerts.complete) return say('incomplete', ageMin);
  if (ageMin < -CLOCK_SKEW_MIN) return say('future', ageMin);
  // Also where one of the two is no number.
  return ageMin < site.quality.alertsHoldAfterMin ? [] : say('old', ageMin);
}
