// What stands at the sites of a list: the same as GET /v1/sites/{id}/now, remembered for a moment while nothing is written of
// the site and its plan is the same.

import type { Wanted } from '#publish/answers/head.ts';
import type { DeskSite } from '#publish/desk.ts';
import type { SiteRow } from '#publish/list/site-row.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { liveOf } from './live-of.ts';
import type { WatchingParts } from './watch.ts';

export interface LiveAsked {
  readonly site: DeskSite;
  /** As remembered: another one is of another plan, or of another window of it. */
  readonly row: SiteRow;
  /** Of the site's watch. */
  readonly version: number;
  /** Nothing burns, and nothing stands. */
  readonly isQuiet: boolean;
  readonly wanted: Wanted;
}

interface Kept extends Pick<LiveAsked, 'row' | 'version'> {
  readonly atMs: number;
  readonly untilMs: number;
  readonly answer: NowAnswer | null;
}

/** A look writes, and comes each minute; in between only the clock moves what stands. */
const QUIET_STANDS_MS = 60_000;
const LIVE_STANDS_MS = 10_000;
const MOST_LIVE = 2000;

export function createListLive(
  watching: WatchingParts | null,
  nowMs: () => number,
): (asked: LiveAsked) => Promise<NowAnswer | null> {
  const all = new Map<string, Kept>();
  return async ({ site, row, version, isQuiet, wanted }) => {
    if (watching === null) return null;
    const { units, language } = wanted.reader;
    const key = `${site.key} ${units} ${language}`;
    const atMs = nowMs();
    const known = all.get(key);
    const isSame = known?.row === row && known.version === version;
    if (known && isSame && known.atMs <= atMs && atMs < known.untilMs) return known.answer;
    const answer = await liveOf(watching, site, wanted);
    const untilMs = atMs + (isQuiet ? QUIET_STANDS_MS : LIVE_STANDS_MS);
    all.delete(key);
    all.set(key, { row, version, atMs, untilMs, answer });
    if (all.size > MOST_LIVE) all.delete(all.keys().next().value ?? '');
    return answer;
  };
}
