// Plans made anew where what they were made from has changed, compared with the plan before, and kept with the difference.

import { hash } from 'node:crypto';
import type { NewEvent } from '#core/events/event.ts';
import { planEvents } from '#core/events/plan-events.ts';
import { diffPlans } from '#core/plan/diff-plans.ts';
import type { DaySummary } from '#core/plan/plan-summary.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import type { SiteDefinition } from '#memory/site-definition.ts';
import type { SiteState } from '#memory/site-state.ts';
import type { Batch } from '#store/batch.ts';
import type { PlanBasis, PlanRecord } from '#store/plan-record.ts';
import type { PlanHead } from '#store/store.ts';
import type { MadePlan, TurnDeps } from './deps.ts';

/**
 * Makes the plans that are due, of all sites or of these. What it writes it may write twice, or two processes at once,
 * without harm: a plan is named by the one before it and by what it is made from.
 */
export async function planSites(deps: TurnDeps, only?: readonly string[]): Promise<void> {
  const { store, mirror } = deps;
  const heads = new Map((await store.plans.heads(only)).map((head) => [head.site, head]));
  // In this order: what is held is then at least as new as what the newest plans were made from.
  await (only ? mirror.syncSites(only) : mirror.sync());
  const due = dueSites(deps, heads, only);
  for (let i = 0; i < due.length; i += AT_ONCE) await planThese(deps, due.slice(i, i + AT_ONCE));
}

/** Plans written in one transaction. */
const AT_ONCE = 100;

interface DueSite {
  readonly key: string;
  readonly definition: SiteDefinition;
  readonly state: SiteState;
  readonly cause: PlanRecord['cause'];
  readonly head: PlanHead | null;
}

function dueSites(
  { mirror, planner, nowMs }: TurnDeps,
  heads: ReadonlyMap<string, PlanHead>,
  only: readonly string[] | undefined,
): DueSite[] {
  const { sites } = mirror.book();
  const due: DueSite[] = [];
  for (const key of only ?? sites.keys()) {
    const definition = sites.get(key);
    if (definition === undefined) continue;
    const state = mirror.state(key);
    const head = heads.get(key) ?? null;
    const cause = causeToPlan(head, state, planner.firstDate(definition, state, nowMs()), nowMs());
    if (cause) due.push({ key, definition, state, cause, head });
  }
  return due;
}

async function planThese(deps: TurnDeps, due: readonly DueSite[]): Promise<void> {
  const { store, planner, nowMs, tally } = deps;
  const made: { made: MadePlan; cause: PlanRecord['cause'] }[] = [];
  const heads = new Map<string, PlanHead | null>();
  for (const { key, definition, state, cause, head } of due) {
    const plan = planner.make(key, definition, state, nowMs());
    if (plan) made.push({ made: plan, cause });
    heads.set(key, head);
    // A plan takes milliseconds, and there may be thousands: requests must not wait for all of them.
    await breathe();
  }
  if (made.length === 0) return;
  const before = await store.plans.newest(made.map((m) => m.made.record.site));
  const newest = new Map(before.map((plan) => [plan.site, plan]));
  // Where another has planned meanwhile, what is due is decided anew the next time.
  const first = made.filter(({ made: { record } }) => {
    return newest.get(record.site)?.planId === heads.get(record.site)?.planId;
  });
  if (first.length === 0) return;
  const batch = batchOf(deps, first, newest);
  await store.commit(batch);
  tally.planned(batch.plans?.length ?? 0, batch.events?.length ?? 0);
}

const breathe = (): Promise<void> => new Promise((resolve) => void setImmediate(resolve));

function causeToPlan(
  head: PlanHead | null,
  state: SiteState,
  date: LocalDate | null,
  nowMs: number,
): PlanRecord['cause'] | null {
  if (state.held === null) return null;
  if (head === null || head.basis.document !== state.held.forecast.documentId) return 'forecast';
  if (head.basis.definition !== state.definition) return 'definition';
  if (head.basis.alerts !== state.alertsHash) return 'alerts';
  const isOver = head.goodUntilMs !== null && head.goodUntilMs <= nowMs;
  return isOver || head.firstDate !== date ? 'time' : null;
}

function batchOf(
  { nowMs }: TurnDeps,
  made: readonly { made: MadePlan; cause: PlanRecord['cause'] }[],
  before: ReadonlyMap<string, PlanRecord>,
): Batch {
  const plans: PlanRecord[] = [];
  const events: NewEvent[] = [];
  for (const { made: plan, cause } of made) {
    const { record, days } = plan;
    const was = before.get(record.site) ?? null;
    const planId = planIdOf(was?.planId ?? null, record);
    plans.push({ ...record, planId, cause });
    const changes = was === null ? [] : diffPlans(was.summary as readonly DaySummary[], days, nowMs());
    const { site, goodUntilMs } = record;
    events.push(...planEvents({ site, planId, atMs: nowMs(), cause, goodUntilMs, changes }));
  }
  const follows = new Map(plans.map(({ site }) => [site, before.get(site)?.planId ?? null]));
  return { documents: made.flatMap(({ made: plan }) => plan.documents), plans, follows, events };
}

/** The same successor of the same plan has the same name, whoever makes it. */
function planIdOf(before: string | null, record: MadePlan['record']): string {
  const { definition, document, alerts }: PlanBasis = record.basis;
  const text = [before, record.site, definition, document, alerts, record.firstDate, record.goodUntilMs].join(
    ' ',
  );
  return hash('sha256', text, 'hex').slice(0, 32);
}
