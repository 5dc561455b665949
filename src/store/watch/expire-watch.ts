// Retention of the watch. Nothing of a burn that is open, of an episode that stands, or of a message that told one goes,
// however old it is. Transitions go before the messages that told them, and these before their deliveries and answers.

import { type RawBuilder, sql } from 'kysely';

export interface WatchLimits {
  /** Burns that were closed, and what was told, before this [epoch ms]. */
  readonly beforeMs: number;
  /** What was observed before this [epoch ms]. */
  readonly observedBeforeMs: number;
}

/** Statements in their order, each of which drops at most `most` rows and is to be run until it drops fewer. */
export function watchSteps({ beforeMs, observedBeforeMs }: WatchLimits, most: number) {
  const step = (table: string, key: string, old: RawBuilder<unknown>): RawBuilder<unknown> => {
    const columns = sql.join(key.split(' ').map((column) => sql.ref(column)));
    return sql`delete from ${sql.table(table)} where (${columns}) in
      (select ${columns} from ${sql.table(table)} as old where ${old} limit ${sql.lit(most)})`;
  };
  const steps = {
    observations: step(
      'observations',
      'site station observed_at_ms revision',
      sql`observed_at_ms < ${observedBeforeMs} and not exists (select 1 from burns as b
        where b.site = old.site and b.closed_at_ms is null and b.opened_at_ms <= old.observed_at_ms)`,
    ),
    burnTaps: step(
      'burn_taps',
      'site id',
      sql`exists (select 1 from burns as b where b.site = old.site and b.id = old.burn and b.closed_at_ms < ${beforeMs})`,
    ),
    briefings: step(
      'briefings',
      'site id',
      sql`exists (select 1 from burns as b where b.site = old.site and b.id = old.burn and b.closed_at_ms < ${beforeMs})`,
    ),
    burnIncidents: step(
      'burn_incidents',
      'site burn id',
      sql`exists (select 1 from burns as b where b.site = old.site and b.id = old.burn and b.closed_at_ms < ${beforeMs})`,
    ),
    burns: step('burns', 'site id', sql`closed_at_ms < ${beforeMs}`),
    transitions: step(
      'transitions',
      'notice episode number',
      sql`at_ms < ${beforeMs} and not exists (select 1 from notices as n
        where n.key = old.notice and n.episode = old.episode and n.phase <> 'quiet')`,
    ),
    notices: step('notices', 'key', sql`phase = 'quiet' and stepped_at_ms < ${beforeMs}`),
    messages: step(
      'messages',
      'id',
      sql`at_ms < ${beforeMs} and valid_until_ms < ${beforeMs}
        and not exists (select 1 from transitions as t where t.message = old.id)`,
    ),
    deliveries: step(
      'deliveries',
      'id',
      sql`due_at_ms < ${beforeMs} and not exists (select 1 from messages as m where m.id = old.message)`,
    ),
    receipts: step('receipts', 'channel reference state', sql`at_ms < ${beforeMs}`),
    answers: step(
      'answers',
      'id',
      sql`received_at_ms < ${beforeMs} and not exists (select 1 from messages as m where m.id = old.message)`,
    ),
    dayTexts: step('day_texts', 'site date kind', sql`at_ms < ${beforeMs}`),
    silences: step('silences', 'id', sql`until_ms < ${beforeMs}`),
  } as const;
  return Object.entries(steps) as [keyof typeof steps, RawBuilder<unknown>][];
}

export type WatchExpired = Readonly<Record<ReturnType<typeof watchSteps>[number][0], number>>;
