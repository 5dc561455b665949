// What goes with messages beside what they tell: the site as it is defined, where the smoke went, which burn it was.

import type { Burn } from '#core/watch/burn.ts';
import { incidentRef } from '#core/watch/burn-incident.ts';
import type { Smoke } from '#core/watch/smoke.ts';
import { ServiceError } from '#errors.ts';
import type { CapSite, CapTold } from '#publish/cap/make-alert.ts';
import type { DeskSite } from '#publish/desk.ts';
import type { CapDeps } from './cap-deps.ts';

export function createCapScene(
  { store, desk, smoke, siteOf, nowMs }: CapDeps,
  organisation: string,
  fromMs: number,
) {
  const sites = new Map<string, CapSite>();
  let burning: Promise<Burn[]> | null = null;
  const site = (key: string): CapSite => {
    const known =
      sites.get(key) ?? capSite(deskSite(desk, key), key, organisation, siteOf(key)?.smoke.reachM ?? 0);
    sites.set(key, known);
    return known;
  };
  return {
    site,
    async at({
      site: key,
      atMs,
      told,
    }: {
      readonly site: string;
      readonly atMs: number;
      readonly told: CapTold;
    }) {
      burning ??= store.watch.burnsAt(nowMs(), fromMs - 1);
      const burns = (await burning).filter(
        (b) => b.site === key && b.openedAtMs <= atMs && (b.closedAtMs === null || b.closedAtMs > atMs),
      );
      const ids = told.kind === 'burn' ? [told.id] : burns.map(({ id }) => id);
      const named: string[] = [];
      for (const id of ids) {
        const kept = await store.watch.burn(key, id);
        const reference = incidentRef((kept?.incidents ?? []).filter((i) => i.atMs <= atMs));
        named.push(id, ...(reference === null ? [] : [reference]));
      }
      const smokes = burns.length > 0 && site(key).at !== null;
      const toward: Smoke | null = smokes ? ((await smoke.smokes(key, [atMs]))[0] ?? null) : null;
      return { smoke: toward, incidents: [...new Set(named)] };
    },
  };
}

function deskSite(desk: CapDeps['desk'], key: string): DeskSite | null {
  try {
    return desk.site(key);
  } catch (fault) {
    if (fault instanceof ServiceError && fault.code === 'unknown_site') return null;
    throw fault;
  }
}

function capSite(site: DeskSite | null, key: string, organisation: string, reachM: number): CapSite {
  const id = key.slice(organisation.length + 1);
  if (site === null)
    return { key, id, name: id, timeZone: 'UTC', at: null, reachM, phone: null, externalRef: null };
  const { externalRef } = site.definition;
  return {
    ...{ key, id, name: site.name, timeZone: site.timeZone ?? 'UTC', at: site.at, reachM },
    phone: site.contact.phone,
    externalRef: typeof externalRef === 'string' ? externalRef : null,
  };
}
