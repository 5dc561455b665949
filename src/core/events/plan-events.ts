// What differs from the plan before → events, one of each kind, so that whoever wants one kind gets all of it.

import type { PlanChange } from '#core/plan/diff-plans.ts';
import { type EventKind, type NewEvent, organisationOf } from './event.ts';

export interface ChangedPlan {
  readonly site: string;
  readonly planId: string;
  readonly atMs: number;
  /** Why it was made anew. */
  readonly cause: string;
  /** From when it is to be made anew [epoch ms]; null: never. */
  readonly goodUntilMs: number | null;
  readonly changes: readonly PlanChange[];
}

const STALE = 'forecast-stale';

export function planEvents({ site, planId, atMs, cause, goodUntilMs, changes }: ChangedPlan): NewEvent[] {
  const of = (kind: EventKind, some: readonly PlanChange[]): NewEvent[] =>
    some.length === 0
      ? []
      : [
          {
            organisation: organisationOf(site),
            site,
            kind,
            subject: planId,
            atMs,
            validUntilMs: goodUntilMs,
            data: { plan: planId, cause, changes: some },
          },
        ];
  const verdicts = changes.filter(({ kind }) => kind === 'verdict');
  const moved = changes.filter(({ kind }) => kind === 'time' || kind === 'windows');
  const reasons = changes.filter((c) => c.kind === 'reason');
  const stale = reasons.filter(({ come }) => come.includes(STALE));
  const fresh = stale.length > 0 ? [] : reasons.filter(({ gone }) => gone.includes(STALE));
  return [
    ...of(STALE, stale),
    ...of('forecast-fresh', fresh),
    ...of('verdict-changed', verdicts),
    ...of('window-changed', moved),
    ...of('reason-changed', reasons),
  ];
}
