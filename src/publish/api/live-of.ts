import type { Wanted } from '#publish/answers/head.ts';
import { nowAnswer } from '#publish/answers/now.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import type { Reader } from '#publish/wording/words.ts';
import type { ReaderQuery } from './query.ts';
import type { WatchingParts } from './watch.ts';
import { zoneOf } from './watch-period.ts';

/** The same as GET /v1/sites/{id}/now; null where nothing is watched. */
export async function liveOf(
  watching: WatchingParts | null,
  { key }: Pick<DeskSite, 'key'>,
  { reader, demo }: Wanted,
): Promise<NowAnswer | null> {
  return watching && nowAnswer(await watching.desk.now(key), reader, demo, watching.say);
}

/** What GET /v1/sites/{id}/now says, the glance shows and the stream tells: one answer, made in one place. */
export async function nowOf(
  { desk: watch, say }: WatchingParts,
  desk: PlanDesk,
  { key }: Pick<DeskSite, 'key'>,
  query: ReaderQuery,
): Promise<NowAnswer> {
  const live = await watch.now(key);
  const reader = readerOf(desk, query, zoneOf(live.site), live.site.today?.date ?? null);
  return nowAnswer(live, reader, desk.demo, say);
}

export function readerOf(
  { preferences }: PlanDesk,
  query: ReaderQuery,
  timeZone: string,
  day: string | null,
): Reader {
  const { units, language } = preferences;
  return { units: query.units ?? units, language: query.lang ?? language, timeZone, day };
}
