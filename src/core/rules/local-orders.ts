// Burn bans and other local orders as the office entered them, and season bans by calendar date.

import { intersect, openSpan } from '#core/units/time.ts';
import { type Finding, finding } from './finding.ts';
import type { RuleContext } from './rule.ts';

/** An order without a beginning has always held; one without an end holds until it is lifted. */
export function localOrders({ site, calendar }: RuleContext): readonly Finding[] {
  const findings: Finding[] = [];
  for (const order of site.orders) {
    const span = intersect(calendar.span, openSpan(order.fromMs, order.toMs));
    if (span === null) continue;
    const { name, issuer } = order;
    if (order.kind === 'authority-stop') {
      findings.push(finding('authority-stop', 'stop', span, { name, issuer }));
      continue;
    }
    const figures = { name, issuer, openEnded: order.toMs === null };
    findings.push(finding('local-order', order.verdict, span, figures));
  }
  return findings;
}

/** Dates `MM-DD`, both included; a season whose end comes before its beginning runs over the turn of the year. */
export function seasonBans({ limits, calendar }: RuleContext): readonly Finding[] {
  const findings: Finding[] = [];
  for (const { from, to, verdict, source } of limits.seasons) {
    for (const day of calendar.days) {
      const monthDay = day.date.slice(-5);
      const inside = from <= to ? monthDay >= from && monthDay <= to : monthDay >= from || monthDay <= to;
      if (inside) findings.push(finding('season-ban', verdict, day, { from, to, source }));
    }
  }
  return findings;
}
