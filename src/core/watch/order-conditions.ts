// What an office has said: official alerts and local orders, in force now or coming within the shift.

import { type Verdict, worseOf } from '#core/rules/finding.ts';
import { UNREADABLE_ALERT } from '#core/rules/official-alerts.ts';
import { verdictOfEvent } from '#core/rules/rule.ts';
import type { OfficialAlert } from '#core/series/official-alert.ts';
import { DAY_MS, HOUR_MS, openSpan, type Span } from '#core/units/time.ts';
import { alertsKnown } from './alerts-known.ts';
import { BLIND_FOR_MS } from './blind-for.ts';
import { isOpen } from './burn-plan.ts';
import type { Condition } from './condition.ts';
import { conditionKey, makeCondition } from './make-condition.ts';
import { horizonMs } from './plan-conditions.ts';
import type { WatchContext } from './watch-context.ts';

/**
 * `official-alert` for each alert by its id, and for the list as a whole with no subject: true where it cannot be read;
 * `local-order` for each order, `authority-stop` where it is one.
 */
export function orderConditions(context: WatchContext): Condition[] {
  return gravestOfEach([...officialAlerts(context), ...localOrders(context)]);
}

/** What is in force counts now; what comes within the shift is told ahead, and the plan knows when it begins to matter. */
function verdictNow(span: Span, verdict: Verdict, { nowMs }: WatchContext): Verdict {
  return span.fromMs <= nowMs ? verdict : 'go';
}

function officialAlerts(context: WatchContext): Condition[] {
  const { alerts, before, nowMs, site } = context;
  const untilMs = horizonMs(context);
  const isKnown = alertsKnown(context);
  const base = {
    basis: 'order',
    asOfMs: alerts?.fetchedAtMs ?? null,
    validUntilMs: nowMs + HOUR_MS,
  } as const;
  const listed = (alerts?.alerts ?? []).flatMap((alert): Condition[] => {
    const span = openSpan(alert.fromMs, alert.toMs);
    if (span.toMs <= nowMs || span.fromMs > untilMs) return [];
    const isReadable = alert.event !== UNREADABLE_ALERT;
    const verdict = isReadable ? verdictOfEvent(site.alertVerdicts, alert.event) : 'hold';
    return [
      makeCondition('official-alert', {
        ...base,
        subject: subjectOf(alert, context),
        truth: 'true',
        verdict: verdictNow(span, verdict, context),
        validUntilMs: Number.isFinite(span.toMs) ? span.toMs : nowMs + HOUR_MS,
        figures: { what: alert.event, source: alert.senderName, atMs: alert.fromMs, wasMs: alert.sentMs },
      }),
    ];
  });
  // An alert is over by its own end, or because a list that is whole no longer has it.
  const gone = before.filter(
    (c) =>
      c.code === 'official-alert' &&
      c.subject !== '' &&
      c.truth !== 'false' &&
      !listed.some((l) => l.subject === c.subject),
  );
  return [
    makeCondition('official-alert', {
      ...base,
      truth: isKnown ? 'false' : 'true',
      verdict: 'hold',
      holdsForMs: BLIND_FOR_MS,
    }),
    ...listed,
    ...gone.map((c) => ({
      ...c,
      truth: isKnown || isPast(context, c) ? ('false' as const) : ('unknown' as const),
    })),
  ];
}

/** A re-issue of what stands goes on under its name: nobody is told the same once more. */
function subjectOf(alert: OfficialAlert, { before }: WatchContext): string {
  const goesOn = before.find(
    ({ code, truth, figures }) =>
      code === 'official-alert' &&
      truth !== 'false' &&
      figures.what === alert.event &&
      figures.source === alert.senderName &&
      figures.atMs === alert.fromMs,
  );
  return goesOn?.subject ?? alert.id;
}

/** The alert is in the list, and its own time is up. */
const isPast = ({ alerts, nowMs }: WatchContext, { subject }: Condition): boolean =>
  alerts?.alerts.some((a) => a.id === subject && openSpan(a.fromMs, a.toMs).toMs <= nowMs) ?? false;

function localOrders(context: WatchContext): Condition[] {
  const { nowMs, site, burn } = context;
  const untilMs = horizonMs(context);
  return site.orders.flatMap(({ kind, name, issuer, fromMs, toMs, verdict }): Condition[] => {
    const span = openSpan(fromMs, toMs);
    if (span.toMs <= nowMs || span.fromMs > untilMs) return [];
    const isStop = kind === 'authority-stop';
    return [
      makeCondition(isStop ? 'authority-stop' : 'local-order', {
        subject: `${issuer} ${name}`,
        truth: 'true',
        verdict: verdictNow(span, verdict, context),
        basis: 'order',
        asOfMs: nowMs,
        // It stands until it is lifted: who sleeps, or cannot be reached, is told of it later. At a fire it is told again.
        validUntilMs: nowMs + (isStop && !isOpen(burn) ? DAY_MS : HOUR_MS),
        figures: { what: name, source: issuer, atMs: fromMs },
      }),
    ];
  });
}

/** Two of one name are one, with the graver verdict. */
function gravestOfEach(conditions: readonly Condition[]): Condition[] {
  const each = new Map<string, Condition>();
  for (const condition of conditions) {
    const key = conditionKey(condition);
    const known = each.get(key);
    if (known === undefined || worseOf(condition.verdict, known.verdict) !== known.verdict)
      each.set(key, condition);
  }
  return [...each.values()];
}
