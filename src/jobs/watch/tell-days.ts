// The evening and dawn texts of all sites that have somebody to tell: at most one of each for a local date.

import { type DayTextDue, dayTextName, dayTextsDue } from '#core/notices/day-texts.ts';
import { firstDeliveries } from '#core/notices/first-deliveries.ts';
import { addDays, localDateAt } from '#core/units/local-time.ts';
import { audiencesOf } from './audiences.ts';
import { type DayTextMessage, dayTextOf } from './day-text-of.ts';
import type { WatchDeps, WatchedSite } from './watched-site.ts';

export async function tellDays(deps: WatchDeps): Promise<void> {
  for (const key of deps.siteKeys()) {
    if (!mayBeDue(deps, key)) continue;
    const watched = deps.view(key);
    if (watched === null || !watched.contacts.some(({ role }) => role === 'crew')) continue;
    await tellSite(deps, watched);
  }
}

/** Cheap, so that thousands of sites cost nothing in the minutes in which nothing is due. */
function mayBeDue(deps: WatchDeps, key: string): boolean {
  const watched = deps.outline(key);
  if (watched === null || !watched.hasCrew) return false;
  const due = dayTextsDue(
    { site: key, timeZone: watched.timeZone, times: watched.texts },
    new Set(),
    deps.nowMs(),
  );
  return due.length > 0;
}

async function tellSite(deps: WatchDeps, watched: WatchedSite): Promise<void> {
  const { key, site, texts } = watched;
  const nowMs = deps.nowMs();
  const kept = await deps.store.watch.dayTexts(key, addDays(localDateAt(nowMs, site.timeZone), -2));
  const told = new Set(kept.map((text) => dayTextName(text)));
  for (const due of dayTextsDue({ site: key, timeZone: site.timeZone, times: texts }, told, nowMs)) {
    const message = dayTextOf(due, watched.plan, kept, { ...deps, nowMs });
    // Without a forecast there is nothing to tell yet; it is told as soon as there is, while it is of use.
    if (message) await tellOne(deps, watched, due, message);
  }
}

async function tellOne(
  deps: WatchDeps,
  watched: WatchedSite,
  { site, date, kind }: DayTextDue,
  message: DayTextMessage,
): Promise<void> {
  const { store, escalation } = deps;
  const nowMs = deps.nowMs();
  const audience = (await audiencesOf(deps, [message]))(message);
  if (audience === null) return;
  const deliveries = firstDeliveries(message, audience, nowMs, escalation);
  await store.watch.commit([
    {
      site: watched.key,
      replaces: null,
      messages: [message],
      deliveries,
      dayTexts: [{ site, date, kind, atMs: nowMs, message: message.id, day: message.day }],
    },
  ]);
  deps.wake();
}
