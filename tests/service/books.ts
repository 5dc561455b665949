// What many processes have written together: plans, events and definitions.

import { expect } from 'vitest';

export type Rows = <T>(sql: string) => Promise<T[]>;

interface Plan {
  readonly site: string;
  readonly plan_id: string;
  readonly basis: string;
  readonly definition: string;
  readonly cause: string;
}

/** One plan for each thing that was new, and at most one event of each kind; positions without a gap; nothing acknowledged is lost. */
export async function booksAreRight(rows: Rows): Promise<void> {
  const plans = await rows<Plan>(
    `select site, plan_id, cause, definition, concat_ws(' ', definition, document, alerts, first_date, good_until_ms) as basis
     from plans order by number`,
  );
  const events = await rows<{ position: string; kind: string; subject: string }>(
    'select position, kind, subject from events order by position',
  );
  for (const [site, own] of Map.groupBy(plans, (plan) => plan.site)) {
    const bases = own.map(({ basis }) => basis);
    expect({ site, twice: bases.filter((b, i) => b === bases[i - 1]) }).toEqual({ site, twice: [] });
    // The limits were changed once: once a plan goes by the new ones, none goes by the old ones again. A forecast that came with
    // them is the cause that is told of the two.
    expect({ site, changed: changesOf(own).length }).toEqual({ site, changed: 1 });
    expect(own.filter(({ cause }) => cause === 'definition').length).toBeLessThanOrEqual(1);
    // The first plan is no change, and every change is told once.
    expect(own[0]?.cause).toBe('forecast');
  }
  expect(events.map(({ position }) => Number(position))).toEqual(events.map((_, i) => i + 1));
  // What the watch told stands among them, where a minute began meanwhile.
  const ofPlans = events.filter(({ kind }) => !/^(?:notice|burn|order)-/.test(kind));
  const each = ofPlans.map(({ kind, subject }) => `${kind} ${subject}`);
  expect(new Set(each).size).toBe(each.length);
  const told = ofPlans.map(({ subject }) => subject);
  const known = new Set(plans.map(({ plan_id }) => plan_id));
  expect(told.filter((id) => !known.has(id))).toEqual([]);
  const revisions = await rows<{ id: string; revision: string }>(
    `select id, max(revision) as revision from definitions where kind = 'limit-set' group by id order by id`,
  );
  expect(revisions.map(({ id, revision }) => `${id} ${revision}`)).toEqual(['hills 2', 'valley 2']);
  const [creek] = changesOf(plans.filter(({ site }) => site === 'own/creek-block'));
  expect(told).toContain(creek?.plan_id);
}

/** Plans, of one site in their order, by another definition than the one before. */
const changesOf = (own: readonly Plan[]): readonly Plan[] =>
  own.filter(({ definition }, i) => i > 0 && definition !== own[i - 1]?.definition);
