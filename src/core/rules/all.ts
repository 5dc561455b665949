// The rules in order. ADD A RULE: a file, and a line here.

import { MINUTE_MS, subtract } from '#core/units/time.ts';
import { burnDown, shortestRun } from './burn-down.ts';
import { clockHours } from './clock-hours.ts';
import { daylight } from './daylight.ts';
import { type Finding, finding } from './finding.ts';
import { forecastQuality } from './forecast-quality.ts';
import { gridHazards } from './grid-hazards.ts';
import { localOrders, seasonBans } from './local-orders.ts';
import { officialAlerts } from './official-alerts.ts';
import { protectedPlaces } from './protected-places.ts';
import type { AfterRule, Rule, RuleContext } from './rule.ts';
import { shift } from './shift.ts';
import { soundInput } from './sound-input.ts';
import { windShift } from './wind-shift.ts';
import { withinLimits } from './within-limits.ts';

const RULES: readonly Rule[] = [
  soundInput,
  withinLimits,
  forecastQuality,
  officialAlerts,
  gridHazards,
  localOrders,
  seasonBans,
  daylight,
  shift,
  clockHours,
  protectedPlaces,
  windShift,
];

/** These build on what the rules above found, in this order. */
const AFTER_RULES: readonly AfterRule[] = [notJudged, burnDown, shortestRun];

/** All findings of all rules, in order of time. */
export function findAll(context: RuleContext): readonly Finding[] {
  const found: Finding[] = [];
  for (const rule of RULES) {
    for (const f of rule(context)) pushToMinutes(found, f);
  }
  // In order of time: laying spans over each other then needs little sorting.
  found.sort(byBeginning);
  for (const rule of AFTER_RULES) found.push(...rule(context, found));
  return found.sort(byBeginning);
}

/** Edges on whole minutes, on the strict side: a go shrinks, a hold or stop grows. */
function pushToMinutes(found: Finding[], f: Finding): void {
  if (f.fromMs % MINUTE_MS === 0 && f.toMs % MINUTE_MS === 0) {
    found.push(f);
    return;
  }
  const [begin, end] = f.verdict === 'go' ? [Math.ceil, Math.floor] : [Math.floor, Math.ceil];
  const fromMs = begin(f.fromMs / MINUTE_MS) * MINUTE_MS;
  const toMs = end(f.toMs / MINUTE_MS) * MINUTE_MS;
  if (fromMs < toMs) found.push({ ...f, fromMs, toMs });
}

const byBeginning = (a: Finding, b: Finding): number => a.fromMs - b.fromMs;

/** Whatever no rule has spoken of is a hold: silence is never go. */
function notJudged({ calendar }: RuleContext, found: readonly Finding[]): readonly Finding[] {
  const judged = found.filter((f) => f.verdict !== 'go' || f.code === 'within-limits');
  return subtract(calendar.span, judged).map((span) => finding('not-judged', 'hold', span, {}, true));
}
