import type { Wanted } from '#publish/answers/head.ts';
import { nowAnswer } from '#publish/answers/now.ts';
import type { DeskSite } from '#publish/desk.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import type { WatchingParts } from './watch.ts';

/** The same as GET /v1/sites/{id}/now; null where nothing is watched. */
export async function liveOf(
  watching: WatchingParts | null,
  { key }: Pick<DeskSite, 'key'>,
  { reader, demo }: Wanted,
): Promise<NowAnswer | null> {
  return watching && nowAnswer(await watching.desk.now(key), reader, demo, watching.say);
}
