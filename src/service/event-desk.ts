// The log of what happened, as a viewer may see it.

import type { LoggedEvent } from '#core/events/event.ts';
import { areaWritten, isInArea } from '#core/site/order-area.ts';
import { ServiceError } from '#errors.ts';
import type { EventDesk } from '#publish/event-desk.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { EventRecords } from '#store/store.ts';

/** Where a site lies, by its key; null where nobody can say: an order of an area may be for it. */
type PlaceOf = (siteKey: string) => readonly [number, number] | null;

export const createEventDesk = (records: EventRecords, placeOf: PlaceOf = () => null): EventDesk => ({
  onAdded: records.onAdded,
  last: async () => (await records.ends()).last,
  async after(viewer, { after, most, siteKey, kinds }) {
    const { organisation, sites } = viewer;
    const from = after ?? 0;
    // Read before the events: all that it counts is there by then.
    const { last } = await records.ends();
    if (from > last) throw aheadOf(last);
    const named = siteKey === null ? sites?.map((id) => `${organisation}/${id}`) : [siteKey];
    const found = await records.after({
      after: from,
      // What comes while it is read comes with the next asking: none of several readings may see more than the others.
      upTo: last,
      most: most + 1,
      organisation,
      ...(named === undefined ? {} : { sites: named }),
      ...(kinds === null ? {} : { kinds }),
    });
    const more = found.length > most;
    const looked = found.slice(0, most);
    const next = more ? (looked.at(-1)?.position ?? from) : last;
    // And after them: what was dropped meanwhile may be missing.
    const { dropped } = await records.ends();
    return {
      events: looked.flatMap((event) => seenBy(viewer, siteKey, event, placeOf)),
      next,
      more,
      missingUpTo: after !== null && after < dropped ? dropped : null,
    };
  },
});

/** An order names its sites, or is for all; whoever it was for until now is told, too, and nobody of other sites. */
function seenBy(
  { organisation, sites }: Viewer,
  siteKey: string | null,
  event: LoggedEvent,
  placeOf: PlaceOf,
): LoggedEvent[] {
  // It tells where else a program is: for whoever sees all.
  if (event.kind === 'subscription-ended') return siteKey === null && sites === null ? [event] : [];
  const asked = siteKey === null ? sites : [siteKey.slice(organisation.length + 1)];
  if (event.site !== null || asked === null) return [event];
  const { body, before, ...rest } = event.data as { body: Order; before?: Order };
  const isOurs = (order: Order | undefined): boolean =>
    order != null &&
    (!Array.isArray(order.sites) || order.sites.some((id) => asked.includes(String(id)))) &&
    isWithin(order, asked, (id) => placeOf(`${organisation}/${id}`));
  if (!isOurs(body) && !isOurs(before)) return [];
  const seen = (order: Order | undefined): Order =>
    order == null || !Array.isArray(order.sites) || sites === null
      ? (order ?? null)
      : { ...order, sites: order.sites.filter((id) => sites.includes(String(id))) };
  return [{ ...event, data: { ...rest, body: seen(body), before: isOurs(before) ? seen(before) : null } }];
}

/** An order that is everywhere is for whoever asks, though no site of theirs lies where they ask. */
function isWithin({ within }: NonNullable<Order>, asked: readonly string[], placeOf: PlaceOf): boolean {
  const area = areaWritten(within);
  if (area === null) return true;
  return asked.some((id) => {
    const place = placeOf(id);
    return place === null || isInArea(area, { latDeg: place[0], lonDeg: place[1] });
  });
}

type Order = { readonly sites?: unknown; readonly within?: unknown } | null;

const aheadOf = (last: number): ServiceError => {
  const message = `no event has that position; the last one is ${last} (was another store put in its place?)`;
  return new ServiceError('bad_query', `after: ${message}`, {
    facts: { faults: [{ path: 'after', message }] },
  });
};
