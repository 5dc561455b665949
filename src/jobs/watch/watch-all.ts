// The minute's look at every site that needs one: where a fire burns, where something stands, and where the plan is another
// than when it was last looked at. One site's fault keeps no other from being looked at.

import { messageOf, ServiceError } from '#errors.ts';
import { tellDays } from './tell-days.ts';
import { watchSite } from './watch-site.ts';
import type { WatchDeps } from './watched-site.ts';

const AT_ONCE = 8;

/**
 * Throws where the store cannot be read, or aborted; and, when all has been looked at and told, where a site could not be
 * looked at: that turn is not done, and the watchdog elsewhere is not called.
 */
export async function watchAll(deps: WatchDeps, signal: AbortSignal): Promise<void> {
  const due = await sitesToWatch(deps);
  const next = due.values();
  const missed: string[] = [];
  const lane = async (): Promise<void> => {
    for (const key of next) {
      signal.throwIfAborted();
      await watchSite(deps, key).catch((fault: unknown) => {
        if (fault instanceof ServiceError && fault.code === 'store_unavailable') throw fault;
        missed.push(key);
        deps.log.warn({ site: key, message: messageOf(fault) }, 'a site could not be looked at');
      });
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, lane));
  await tellDays(deps);
  if (missed.length > 0)
    throw new ServiceError('internal', `could not be looked at: ${missed.join(', ')}`, {
      facts: { sites: missed },
    });
}

async function sitesToWatch(deps: WatchDeps): Promise<Set<string>> {
  const { store } = deps;
  const nowMs = deps.nowMs();
  const [open, standing, heads, judged] = await Promise.all([
    store.watch.openBurns(),
    store.watch.standing(),
    store.plans.heads(),
    store.watch.judged(),
  ]);
  const due = new Set([...open, ...standing].map(({ site }) => site));
  for (const { site, madeAtMs } of heads) {
    const judgedAtMs = judged.get(site) ?? Number.NEGATIVE_INFINITY;
    // A plan of the very second may have come after the look; a look that lies ahead was taken by a wrong clock.
    const isLookedAt = judgedAtMs > madeAtMs && judgedAtMs <= nowMs;
    if (!isLookedAt && deps.outline(site)?.hasCrew === true) due.add(site);
  }
  const known = new Set(deps.siteKeys());
  return new Set([...due].filter((site) => known.has(site)));
}
