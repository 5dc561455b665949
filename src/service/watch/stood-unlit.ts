// What stands at the sites where nothing burns, by the last look at each: what was read is known until the site is written of.

import { MINUTE_MS } from '#core/units/time.ts';
import { verdictUnlit } from '#core/watch/live-verdict.ts';
import type { WatchSettings } from '#core/watch/watch-settings.ts';
import type { StoodUnlit } from '#publish/list-desk.ts';
import type { Store } from '#store/store.ts';
import type { KeptStood } from '#store/watch/list-records.ts';

export interface StoodUnlitDeps {
  readonly store: Pick<Store, 'watch'>;
  readonly nowMs: () => number;
  /** Of the watch of a site; null where it cannot be judged. */
  settingsOf(siteKey: string): Pick<WatchSettings, 'lookBackMin'> | null;
}

interface Known {
  readonly version: number;
  readonly judgedAtMs: number;
  /** Null: nothing that bars a go. */
  readonly stands: StoodUnlit | null;
}

/** `versions`: of the watch of each site. */
export function createStoodUnlit({
  store,
  nowMs,
  settingsOf,
}: StoodUnlitDeps): (versions: ReadonlyMap<string, number>) => Promise<ReadonlyMap<string, StoodUnlit>> {
  const known = new Map<string, Known>();
  return async (versions) => {
    const changed = [...versions].filter(([site, version]) => known.get(site)?.version !== version);
    for (const kept of await store.watch.stood(changed.map(([site]) => site)))
      known.set(kept.site, asKnown(kept));
    for (const site of known.keys()) if (!versions.has(site)) known.delete(site);
    const atMs = nowMs();
    const found = new Map<string, StoodUnlit>();
    for (const [site, { stands, judgedAtMs }] of known) {
      // What stood longer ago than observations count is of another day.
      const settings = stands && settingsOf(site);
      if (stands && settings && atMs - judgedAtMs <= settings.lookBackMin * MINUTE_MS)
        found.set(site, stands);
    }
    return found;
  };
}

function asKnown({ version, judgedAtMs, conditions }: KeptStood): Known {
  // How old the forecast is moves with the clock: the list knows it of its own.
  const { verdict, cannotSay } = verdictUnlit(conditions.filter(({ code }) => code !== 'forecast-stale'));
  const stands = verdict === 'go' ? null : { verdict, unknown: cannotSay };
  return { version, judgedAtMs: judgedAtMs ?? Number.NEGATIVE_INFINITY, stands };
}
