// The log of what happened. Positions are given under one counter, so that they stand in the order of the commits.

import type { Kysely, Selectable, Transaction } from 'kysely';
import { type EventKind, type LoggedEvent, type NewEvent, organisationOf } from '#core/events/event.ts';
import type { DatabaseAccess } from './access.ts';
import { chunks } from './chunks.ts';
import { counterValues, raise } from './counters.ts';
import { addsEvents } from './event-signal.ts';
import { fromJson, toJson } from './json.ts';
import type { EventQuery, EventRecords } from './store.ts';
import type { Tables } from './tables.ts';

type Row = Selectable<Tables['events']>;

export function createEvents({ reading, eventsAdded }: DatabaseAccess): EventRecords {
  return {
    onAdded: eventsAdded.on,
    after: (query) =>
      reading(async (db) => {
        // What is of the whole organisation once, not with each piece of the list.
        const pieces = query.sites === undefined ? [null] : [[''], ...chunks(query.sites)];
        const rows: Row[] = [];
        for (const sites of pieces) rows.push(...(await asked(db, query, sites).execute()));
        return rows
          .sort((a, b) => a.position - b.position)
          .slice(0, query.most)
          .map(asEvent);
      }),
    ends: () =>
      reading(async (db) => {
        const counters = await counterValues(db);
        return { last: counters.get('events') ?? 0, dropped: counters.get('events-dropped') ?? 0 };
      }),
  };
}

function asked(db: Kysely<Tables>, query: EventQuery, sites: readonly string[] | null) {
  const { organisation, kinds } = query;
  let rows = db
    .selectFrom('events')
    .selectAll()
    .where('position', '>', query.after)
    .orderBy('position')
    .limit(query.most);
  if (query.upTo !== undefined) rows = rows.where('position', '<=', query.upTo);
  if (sites !== null) rows = rows.where('site', 'in', sites);
  if (kinds !== undefined) rows = rows.where('kind', 'in', kinds);
  if (organisation === undefined) return rows;
  // A program of an older version writes none.
  return rows.where((e) =>
    e.or([
      e('organisation', '=', organisation),
      e.and([
        e('organisation', '=', ''),
        e('site', '>=', `${organisation}/`),
        e('site', '<', `${organisation}0`),
      ]),
    ]),
  );
}

const asEvent = ({ planId, changes, site, kind, subject, organisation, ...rest }: Row): LoggedEvent => ({
  organisation: organisation === '' ? organisationOf(site) : organisation,
  site: site === '' ? null : site,
  kind: kind as EventKind,
  subject: subject === '' ? planId : subject,
  ...rest,
  data: fromJson(changes),
});

/** The last thing of a transaction: whoever holds the counter keeps others waiting. */
export async function addEvents(
  transaction: Transaction<Tables>,
  events: readonly NewEvent[],
): Promise<void> {
  if (events.length === 0) return;
  addsEvents(transaction);
  const last = await raise(transaction, 'events', events.length);
  const rows = events.map(({ data, site, ...event }, i) => ({
    ...event,
    site: site ?? '',
    planId: '',
    changes: toJson(data),
    position: last - events.length + 1 + i,
  }));
  for (const some of chunks(rows)) await transaction.insertInto('events').values(some).execute();
}
