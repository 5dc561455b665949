// Which incidents burns were assigned to.

import type { Kysely, Transaction } from 'kysely';
import { type BurnIncident, incidentRef } from '#core/watch/burn-incident.ts';
import type { Tables } from '#store/tables.ts';
import type { WatchPatch } from './records.ts';

export async function addIncidents(
  transaction: Transaction<Tables>,
  { site, incidents = [] }: WatchPatch,
): Promise<void> {
  for (const incident of incidents)
    await transaction
      .insertInto('burnIncidents')
      .values({ site, ...incident })
      .execute();
}

/** In the order in which they were assigned. */
export async function incidentsIn(db: Kysely<Tables>, site: string, burn: string): Promise<BurnIncident[]> {
  return db
    .selectFrom('burnIncidents')
    .select(['id', 'burn', 'reference', 'by', 'atMs'])
    .where('site', '=', site)
    .where('burn', '=', burn)
    .orderBy('atMs')
    .orderBy('id')
    .execute();
}

/** The reference of a burn, or of what burns at a site; null: none has one. */
export async function refIn(db: Kysely<Tables>, site: string, burn: string | null): Promise<string | null> {
  if (burn !== null) return incidentRef(await incidentsIn(db, site, burn));
  const open = await db
    .selectFrom('burns')
    .select('id')
    .where('site', '=', site)
    .where('closedAtMs', 'is', null)
    .orderBy('openedAtMs')
    .execute();
  for (const { id } of open) {
    const reference = incidentRef(await incidentsIn(db, site, id));
    if (reference !== null) return reference;
  }
  return null;
}
