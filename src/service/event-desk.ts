// The log of what happened, as a viewer may see it.

import type { LoggedEvent } from '#core/events/event.ts';
import { ServiceError } from '#errors.ts';
import type { EventDesk } from '#publish/event-desk.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { EventRecords } from '#store/store.ts';

export const createEventDesk = (records: EventRecords): EventDesk => ({
  async after(viewer, { after, most, siteKey, kinds }) {
    const { organisation, sites } = viewer;
    const from = after ?? 0;
    // Read before the events: all that it counts is there by then.
    const { last } = await records.ends();
    if (from > last) throw aheadOf(last);
    const named = siteKey === null ? sites?.map((id) => `${organisation}/${id}`) : [siteKey];
    const found = await records.after({
      after: from,
      most: most + 1,
      organisation,
      ...(named === undefined ? {} : { sites: named }),
      ...(kinds === null ? {} : { kinds }),
    });
    const more = found.length > most;
    const looked = found.slice(0, most);
    const next = more ? (looked.at(-1)?.position ?? from) : Math.max(last, looked.at(-1)?.position ?? 0);
    // And after them: what was dropped meanwhile may be missing.
    const { dropped } = await records.ends();
    return {
      events: looked.filter((event) => isFor(viewer, siteKey, event)),
      next,
      more,
      missingUpTo: after !== null && after < dropped ? dropped : null,
    };
  },
});

/** An order names its sites, or is for all. */
function isFor({ organisation, sites }: Viewer, siteKey: string | null, event: LoggedEvent): boolean {
  if (event.site !== null) return true;
  const asked = siteKey === null ? sites : [siteKey.slice(organisation.length + 1)];
  if (asked === null) return true;
  const { body } = event.data as { body: { sites?: unknown } | null };
  // Of a lifted one nobody knows any more whom it was for.
  const named = body?.sites ?? 'all';
  return !Array.isArray(named) || named.some((id) => asked.includes(String(id)));
}

const aheadOf = (last: number): ServiceError => {
  const message = `no event has that position; the last one is ${last} (was another store put in its place?)`;
  return new ServiceError('bad_query', `after: ${message}`, {
    facts: { faults: [{ path: 'after', message }] },
  });
};
