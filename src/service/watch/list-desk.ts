// What the list of sites goes by, of all sites at once. What went out in an evening never changes: it is read once.

import type { Contact } from '#core/notices/contact.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { CrewHeard, CrewTold, EveningSeen, ListDesk } from '#publish/list-desk.ts';
import type { LastTold, ToldPart } from '#store/watch/list-records.ts';
import { createStoodUnlit, type StoodUnlitDeps } from './stood-unlit.ts';

export interface ListDeskDeps extends StoodUnlitDeps {
  /** Of the site's organisation. */
  contactsOf(siteKey: string): readonly Contact[];
}

/** An evening text speaks of the day after it, and no longer. */
const EVENING_COUNTS_MS = 40 * 60 * MINUTE_MS;
const TOLD_COUNTS_MS = EVENING_COUNTS_MS;
/** A transaction may be kept so much later than the moment that it names. */
const KEPT_LATE_MS = 10 * MINUTE_MS;

export function listDesk(deps: ListDeskDeps): ListDesk {
  const { watch } = deps.store;
  const evenings = createEvenings(deps);
  const stoodUnlit = createStoodUnlit(deps);
  return {
    async listed() {
      const [burns, notices, versions, told, missed] = await Promise.all([
        watch.openBurns(),
        watch.standing(),
        watch.watchVersions(),
        evenings(),
        watch.unreached(),
      ]);
      return {
        burns: new Map(burns.map((burn) => [burn.site, burn])),
        notices: Map.groupBy(notices, ({ site }) => site),
        evenings: told,
        undelivered: namesOf(missed, deps),
        stood: await stoodUnlit(versions),
        versions,
      };
    },
    async crewTold(siteKeys) {
      const told = await watch.lastTold(siteKeys, deps.nowMs() - TOLD_COUNTS_MS);
      return new Map(told.flatMap((one) => asSeen(one, deps.contactsOf(one.site))));
    },
  };
}

function namesOf(
  missed: readonly { readonly site: string; readonly contact: string }[],
  { contactsOf }: Pick<ListDeskDeps, 'contactsOf'>,
): ReadonlyMap<string, readonly string[]> {
  const named = missed.map(({ site, contact }) => {
    const known = contactsOf(site).find(({ id }) => id === contact);
    return { site, name: known?.name ?? contact };
  });
  return new Map(
    [...Map.groupBy(named, ({ site }) => site)].map(([site, all]) => [
      site,
      all.map(({ name }) => name).sort(),
    ]),
  );
}

function createEvenings({
  store,
  nowMs,
}: Pick<ListDeskDeps, 'store' | 'nowMs'>): () => Promise<ReadonlyMap<string, EveningSeen>> {
  let known: ReadonlyMap<string, EveningSeen> = new Map();
  let readToMs: number | null = null;
  return async () => {
    const now = nowMs();
    const oldestMs = now - EVENING_COUNTS_MS;
    // A clock that was set back may have told anew what was told ahead of it.
    const isAhead = readToMs === null || readToMs > now;
    const sinceMs = isAhead ? oldestMs : Math.max(oldestMs, (readToMs ?? 0) - KEPT_LATE_MS);
    const fresh = await store.watch.evenings(sinceMs);
    const kept = isAhead ? [] : [...known].filter(([, { atMs }]) => atMs >= oldestMs);
    known = new Map([...kept, ...fresh.map(({ site, atMs, day }) => [site, { atMs, day }] as const)]);
    readToMs = now;
    return known;
  };
}

/** Nothing where nobody of the crew was to be told. */
function asSeen(told: LastTold, contacts: readonly Contact[]): (readonly [string, CrewTold])[] {
  const { kind, site, atMs, deliveries, answers } = told;
  if (kind !== 'evening' && kind !== 'dawn' && kind !== 'notice') return [];
  const names = new Map(contacts.filter(({ role }) => role === 'crew').map(({ id, name }) => [id, name]));
  const ids = [...new Set([...deliveries, ...answers].map(({ contact }) => contact))];
  const crew = ids.flatMap((id): CrewHeard[] => {
    const name = names.get(id);
    if (name === undefined) return [];
    const said = answers.findLast(({ contact }) => contact === id);
    if (said) return [{ contact: name, how: said.said === 'cannot' ? 'cannot' : 'seen', atMs: said.atMs }];
    const own = deliveries.filter(({ contact }) => contact === id);
    return [{ contact: name, ...bestOf(own) }];
  });
  return crew.length === 0 ? [] : [[site, { kind, atMs, crew }] as const];
}

/** Over whichever way and try it got farthest. */
function bestOf(parts: readonly ToldPart[]): Pick<CrewHeard, 'how' | 'atMs'> {
  const delivered = parts.find(({ deliveredAtMs }) => deliveredAtMs !== null);
  if (delivered) return { how: 'delivered', atMs: delivered.deliveredAtMs };
  for (const how of ['sent', 'uncertain'] as const) {
    const part = parts.find(({ outcome }) => outcome === how);
    if (part) return { how, atMs: part.settledAtMs };
  }
  const waits = parts.some(({ outcome }) => outcome === null);
  return waits ? { how: 'waiting', atMs: null } : { how: 'failed', atMs: parts[0]?.settledAtMs ?? null };
}
