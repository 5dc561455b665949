// What the board shows: all open burns of the viewer's sites, those first of which the crew was told the worst, and the sites
// that may still light today; fifty of each on a page.

import { SEVERITY, type Verdict } from '#core/rules/finding.ts';
import { localDateAt, rfc3339 } from '#core/units/local-time.ts';
import type { Burn } from '#core/watch/burn.ts';
import { isOpen } from '#core/watch/burn-plan.ts';
import { NO_SMOKE } from '#core/watch/smoke.ts';
import { ServiceError } from '#errors.ts';
import { smokeAnswer } from '#publish/answers/smoke.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { BoardBurn, BoardGo, BoardSite, BoardView } from '#publish/page/board/board-view.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import type { Reader } from '#publish/wording/words.ts';
import type { GoesToday, GoToday } from './go-today.ts';
import { inLanes } from './in-lanes.ts';
import { liveOf } from './live-of.ts';
import type { ReaderQuery } from './query.ts';
import { wantedBy } from './site-answers.ts';
import { type UnplacedBurn, unplacedBurns } from './unplaced-burns.ts';
import type { WatchingParts } from './watch.ts';
import { zoneOf } from './watch-period.ts';

export interface BoardParts {
  readonly desk: PlanDesk;
  readonly watching: WatchingParts;
  readonly goes: GoesToday;
}

export interface BoardAsked extends ReaderQuery {
  readonly page?: number | undefined;
}

type Shown = Pick<
  BoardView,
  'burns' | 'unplaced' | 'burnCount' | 'goes' | 'goCount' | 'page' | 'pages' | 'timeZone'
>;

export const PITS_PER_PAGE = 50;

interface OpenPit {
  readonly site: DeskSite;
  readonly burn: Burn;
}

export async function boardShown(parts: BoardParts, viewer: Viewer, query: BoardAsked): Promise<Shown> {
  const { desk, goes } = parts;
  const sites = desk.sites(viewer);
  const { open, unplaced } = await openPits(parts, viewer, sites);
  const burning = new Set(open.map(({ site }) => site.key));
  const ahead = await goes.of(sites.filter(({ key }) => !burning.has(key)));
  ahead.sort((a, b) => (a.go.windows[0]?.fromMs ?? 0) - (b.go.windows[0]?.fromMs ?? 0));
  const pages = Math.max(1, Math.ceil(Math.max(open.length, ahead.length) / PITS_PER_PAGE));
  const page = Math.min(query.page ?? 1, pages);
  const onPage = <T>(all: readonly T[]): readonly T[] =>
    all.slice((page - 1) * PITS_PER_PAGE, page * PITS_PER_PAGE);
  const burns = onPage(open);
  const rows = onPage(ahead);
  // A pit keeps its letter however many may light after it.
  const pins = pinsOf(burns.length + rows.length);
  const zones = new Set([...burns, ...rows].map(({ site }) => zoneOf(site)));
  const timeZone = [...zones][0] ?? (sites[0] ? zoneOf(sites[0]) : 'UTC');
  return {
    burns: await inLanes(burns, (one, i) => burnOf(parts, query, one, pins[i] ?? '')),
    unplaced: unplaced.map(({ site, burn: { id, state, sinceMs } }) => ({
      ...{ site, burn: { id, state, since: rfc3339(sinceMs, timeZone) } },
    })),
    burnCount: open.length + unplaced.length,
    goes: await inLanes(rows, (one, i) => goOf(parts, query, one, pins[burns.length + i] ?? '')),
    goCount: ahead.length,
    page,
    pages,
    timeZone,
  };
}

/** A to Z, then AA to AZ and on. */
export const pinsOf = (count: number): string[] =>
  Array.from({ length: count }, (_, i) => {
    const letter = String.fromCharCode(65 + (i % 26));
    return i < 26 ? letter : `${String.fromCharCode(64 + Math.floor(i / 26))}${letter}`;
  });

async function openPits(
  { desk, watching }: BoardParts,
  viewer: Viewer,
  sites: readonly DeskSite[],
): Promise<{ readonly open: readonly OpenPit[]; readonly unplaced: readonly UnplacedBurn[] }> {
  const nowMs = desk.nowMs();
  const byKey = new Map(sites.map((site) => [site.key, site]));
  const [burns, notices] = await Promise.all([
    watching.desk.burnsAt(nowMs, nowMs),
    watching.desk.notices(viewer, null),
  ]);
  const told = new Map<string, number>();
  for (const { site, told: verdict } of notices)
    told.set(site, Math.max(told.get(site) ?? 0, severity(verdict)));
  const open = burns.filter(isOpen).flatMap((burn): OpenPit[] => {
    const site = byKey.get(burn.site);
    return site ? [{ site, burn }] : [];
  });
  const worst = ({ site }: OpenPit): number => told.get(site.key) ?? 0;
  open.sort((a, b) => worst(b) - worst(a) || a.burn.openedAtMs - b.burn.openedAtMs);
  return { open, unplaced: unplacedBurns(viewer, burns.filter(isOpen), byKey) };
}

const severity = (verdict: Verdict | null): number => (verdict === null ? 0 : SEVERITY[verdict]);

async function burnOf(
  parts: BoardParts,
  query: BoardAsked,
  { site, burn }: OpenPit,
  pin: string,
): Promise<BoardBurn> {
  const { desk, watching } = parts;
  const reader = readerOf(desk, query, site);
  const nowMs = desk.nowMs();
  const live = await liveOrNull(parts, query, site);
  const { lastTap } = await watching.desk.burnThen(burn, nowMs);
  const at = (ms: number): string => rfc3339(ms, reader.timeZone);
  return {
    pin,
    site: siteOf(site),
    live,
    burn: {
      state: burn.state,
      litAt: burn.litAtMs === null ? null : at(burn.litAtMs),
      since: at(burn.sinceMs),
    },
    lastTap: lastTap && { tap: lastTap.tap, tappedAt: at(lastTap.tappedAtMs), by: lastTap.by },
    smoke: await smokeOf(parts, site, reader),
  };
}

async function goOf(
  parts: BoardParts,
  query: BoardAsked,
  { site, go }: { readonly site: DeskSite; readonly go: GoToday },
  pin: string,
): Promise<BoardGo> {
  const reader = readerOf(parts.desk, query, site);
  const at = (ms: number): string => rfc3339(ms, reader.timeZone);
  return {
    pin,
    site: siteOf(site),
    live: await liveOrNull(parts, query, site),
    windows: go.windows.map(({ fromMs, toMs }) => ({ from: at(fromMs), to: at(toMs) })),
    coveredBy: go.coveredByMs === null ? null : at(go.coveredByMs),
    smoke: await smokeOf(parts, site, reader),
  };
}

async function smokeOf({ desk, watching }: BoardParts, { key }: DeskSite, reader: Reader) {
  const [smoke = NO_SMOKE] = await watching.desk.smokes(key, [desk.nowMs()]);
  return smokeAnswer(smoke, reader);
}

function readerOf(desk: PlanDesk, query: ReaderQuery, site: DeskSite): Reader {
  const timeZone = zoneOf(site);
  return wantedBy(desk, query, timeZone, localDateAt(desk.nowMs(), timeZone), null).reader;
}

const siteOf = (site: DeskSite): BoardSite => ({
  id: site.id,
  name: site.name,
  at: site.at,
  timeZone: zoneOf(site),
  contact: site.contact,
});

/** Null where no forecast was had yet, and so nobody can say: the pit burns all the same. */
async function liveOrNull(
  { desk, watching }: BoardParts,
  query: ReaderQuery,
  site: DeskSite,
): Promise<NowAnswer | null> {
  try {
    const wanted = wantedBy(desk, query, zoneOf(site), site.today?.date ?? null, null);
    return await liveOf(watching, site, wanted);
  } catch (fault) {
    if (fault instanceof ServiceError && fault.code === 'no_forecast') return null;
    throw fault;
  }
}
