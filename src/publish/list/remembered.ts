// What was made of a site's plan, remembered while it stands: made once for a forecast, as the answers of the API are.

import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';

/** How it is to be said; left out: as the service is set up. */
export interface Asker {
  readonly units?: UnitSystem | undefined;
  readonly lang?: Language | undefined;
  /** Which day, as it was asked for; left out: that of what is remembered. */
  readonly day?: string | undefined;
}

export interface Made<T> {
  readonly value: T;
  /** Not to be used from this moment on [epoch ms]. */
  readonly goodUntilMs: number;
}

interface Kept<T> extends Made<T> {
  readonly version: number;
  readonly madeAtMs: number;
}

/** Keeps at most `most`; the longest kept go first. */
export function createRemembered<T>(
  desk: Pick<PlanDesk, 'nowMs' | 'versionOf'>,
  most: number,
  make: (site: DeskSite, asker: Asker, nowMs: number) => Made<T>,
): (site: DeskSite, asker: Asker) => T {
  const all = new Map<string, Kept<T>>();
  return (site, asker) => {
    const key = `${site.key} ${asker.units ?? ''} ${asker.lang ?? ''} ${asker.day ?? ''}`;
    const nowMs = desk.nowMs();
    const kept = all.get(key);
    const isGood =
      kept?.version === desk.versionOf(site.key) && kept.madeAtMs <= nowMs && nowMs < kept.goodUntilMs;
    if (kept && isGood) return kept.value;
    const made = make(site, asker, nowMs);
    all.delete(key);
    all.set(key, { ...made, version: site.state.version, madeAtMs: nowMs });
    if (all.size > most) all.delete(all.keys().next().value ?? '');
    return made.value;
  };
}

/** Longest that one list keeps others from being answered [ms]. */
const SLICE_MS = 8;

/** The same as `list.map(work)`, letting other work in between. */
export async function inSlices<T, R>(list: readonly T[], work: (one: T) => R): Promise<R[]> {
  const done: R[] = [];
  let sinceMs = performance.now();
  for (const one of list) {
    done.push(work(one));
    if (performance.now() - sinceMs < SLICE_MS) continue;
    await new Promise<void>((resolve) => setImmediate(resolve));
    sinceMs = performance.now();
  }
  return done;
}
