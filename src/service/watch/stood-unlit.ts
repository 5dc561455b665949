// What stands at the sites where nothing burns, by the last look at each: what was read is known until the site is written of,
// and the clock alone makes its stations silent.

import { worseOf } from '#core/rules/finding.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { allSilent } from '#core/watch/all-silent.ts';
import type { Condition } from '#core/watch/condition.ts';
import { verdictUnlit } from '#core/watch/live-verdict.ts';
import type { WatchedSite } from '#jobs/watch/watched-site.ts';
import type { StoodUnlit } from '#publish/list-desk.ts';
import type { Store } from '#store/store.ts';
import type { KeptStood } from '#store/watch/list-records.ts';

export interface StoodUnlitDeps {
  readonly store: Pick<Store, 'watch'>;
  readonly nowMs: () => number;
  /** Null where a site cannot be judged. */
  view(siteKey: string): Pick<WatchedSite, 'settings' | 'stations'> | null;
}

interface Known {
  readonly version: number;
  readonly judgedAtMs: number;
  readonly stands: StoodUnlit;
  /** What each station told last. */
  readonly silence: readonly Condition[];
}

type StoodOf = (siteKey: string) => StoodUnlit | null;

const NOTHING: StoodUnlit = { verdict: 'go', unknown: false };

/** `versions`: of the watch of each site. What it gives is null where nothing is known that bars a go. */
export function createStoodUnlit({
  store,
  nowMs,
  view,
}: StoodUnlitDeps): (versions: ReadonlyMap<string, number>) => Promise<StoodOf> {
  const all = new Map<string, Known>();
  return async (versions) => {
    const changed = [...versions].filter(([site, version]) => all.get(site)?.version !== version);
    for (const kept of await store.watch.stood(changed.map(([site]) => site)))
      all.set(kept.site, asKnown(kept));
    for (const site of all.keys()) if (!versions.has(site)) all.delete(site);
    const atMs = nowMs();
    return (site) => {
      const seen = view(site);
      return seen && stoodAt(all.get(site), seen, atMs);
    };
  };
}

function stoodAt(
  known: Known | undefined,
  { settings, stations }: Pick<WatchedSite, 'settings' | 'stations'>,
  atMs: number,
): StoodUnlit | null {
  // What stood longer ago than observations count is of another day.
  const counts = known !== undefined && atMs - known.judgedAtMs <= settings.lookBackMin * MINUTE_MS;
  const stands = counts ? known.stands : NOTHING;
  const isBlind = allSilent(stations, known?.silence ?? [], settings, atMs);
  const verdict = worseOf(stands.verdict, isBlind ? 'hold' : 'go');
  if (verdict === 'go') return null;
  return { verdict, unknown: verdict === 'hold' && (stands.verdict === 'go' || stands.unknown) };
}

function asKnown({ version, judgedAtMs, conditions }: KeptStood): Known {
  // How old the forecast is moves with the clock, and the list knows it of its own; silence is told by the clock here.
  const silence = conditions.filter(({ code }) => code === 'station-silent');
  const lasting = conditions.filter(({ code }) => code !== 'forecast-stale' && code !== 'station-silent');
  const { verdict, cannotSay } = verdictUnlit(lasting);
  return {
    version,
    judgedAtMs: judgedAtMs ?? Number.NEGATIVE_INFINITY,
    stands: { verdict, unknown: cannotSay },
    silence,
  };
}
