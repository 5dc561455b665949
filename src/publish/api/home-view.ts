// The list of sites: a hundred at a time, those that need somebody first. What is counted and sorted is a digest of each
// site; what is shown of a hundred is the very answers.

import { rfc3339 } from '#core/units/local-time.ts';
import { noticeAnswer } from '#publish/answers/now.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { Listed } from '#publish/list/facts.ts';
import { countsOf, filtered } from '#publish/list/filter.ts';
import { isUnanswered, type Judged, sorted } from '#publish/list/needs.ts';
import type { Asker } from '#publish/list/remembered.ts';
import type { SiteRow } from '#publish/list/site-row.ts';
import type { CrewTold } from '#publish/list-desk.ts';
import type { CrewSeen } from '#publish/page/crew-line.ts';
import type { HomeView } from '#publish/page/home-page.ts';
import { momentAt } from '#publish/page/moments.ts';
import type { MovedTime } from '#publish/page/moved-line.ts';
import type { NeedSeen } from '#publish/page/needs-line.ts';
import { firstReason } from '#publish/page/reasons.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { forecastStateOf } from './forecast-state.ts';
import type { LiveAsked } from './list-live.ts';
import { filterOf, type ListQuery } from './list-query.ts';
import { queryText } from './query-text.ts';
import { wantedBy } from './site-answers.ts';
import type { WatchingParts } from './watch.ts';

const SITES_PER_PAGE = 100;

export interface HomeParts {
  readonly desk: PlanDesk;
  readonly watching: WatchingParts | null;
  rowOf(site: DeskSite, asker: Asker): SiteRow;
  /** What stands at a site; null where nothing is watched. `version`: of its watch. */
  liveOf(asked: LiveAsked): Promise<NowAnswer | null>;
}

export async function homeView(parts: HomeParts, listed: Listed, query: ListQuery): Promise<HomeView> {
  const { desk, watching } = parts;
  const { units, language } = wantedBy(desk, query, 'UTC', null, null).reader;
  const found = sorted(filtered(listed.all, filterOf(query)));
  const pages = Math.max(1, Math.ceil(found.length / SITES_PER_PAGE));
  const page = Math.min(query.page ?? 1, pages);
  const first = (page - 1) * SITES_PER_PAGE;
  const shown = found.slice(first, first + SITES_PER_PAGE);
  const told = watching && (await watching.desk.crewTold(shown.map(({ site }) => site.key)));
  const sites = await Promise.all(
    shown.map((one) => siteOf(parts, listed, one, told?.get(one.site.key) ?? null, query)),
  );
  return {
    sites,
    page,
    pages,
    head: {
      counts: countsOf(listed.all),
      evening: eveningOf(listed, language),
      found: found.length,
      from: first + 1,
      to: first + shown.length,
    },
    asOf: rfc3339(desk.nowMs(), 'UTC'),
    demo: desk.demo,
    reader: { units, language },
    query: written(query),
  };
}

/** A form sends its empty fields too. */
const written = (query: ListQuery): Record<string, string> =>
  Object.fromEntries(Object.entries(queryText(query)).filter(([, text]) => text !== ''));

async function siteOf(
  parts: HomeParts,
  { now }: Listed,
  one: Judged,
  told: CrewTold | null,
  query: ListQuery,
): Promise<HomeView['sites'][number]> {
  const { desk, watching, rowOf, liveOf } = parts;
  const { site } = one;
  const { id, name, timeZone, today } = site;
  const row = rowOf(site, query);
  const wanted = wantedBy(desk, query, timeZone ?? 'UTC', today?.date ?? null, null);
  const version = now?.versions.get(site.key) ?? 0;
  const isQuiet = one.burn === null && one.stood === null && one.notices.length === 0;
  const live = timeZone === null ? null : await liveOf({ site, row, version, isQuiet, wanted });
  return {
    ...row,
    id,
    name,
    timeZone,
    live,
    forecast: forecastStateOf(site, desk.nowMs()),
    needs: needsSeen(one, row, live, (notice) =>
      watching === null ? '' : noticeAnswer(notice, wanted.reader, watching.say).condition.text,
    ),
    moved: movedOf(one),
    crew: watching === null ? undefined : told && crewSeen(told, timeZone ?? 'UTC'),
  };
}

/** The reason that the day's own answer gives, or the notice that nobody has answered. */
function needsSeen(
  { needs, changes, notices, undelivered }: Judged,
  { today, tomorrow }: SiteRow,
  live: NowAnswer | null,
  textOf: (notice: Judged['notices'][number]) => string,
): NeedSeen[] {
  return needs.map((code): NeedSeen => {
    const plain = { code, text: null, wasAndIs: null };
    if (code === 'burn-stop' || code === 'burn-hold') return { ...plain, text: live?.text ?? null };
    if (code === 'undelivered') return { ...plain, text: `${undelivered.join(', ')}.` };
    if (code === 'unanswered') {
      const notice = notices.find(isUnanswered);
      return { ...plain, text: notice ? textOf(notice) : null };
    }
    if (code === 'cannot-say') {
      const day = [today, tomorrow].find((plan) => plan?.cannotSay);
      return { ...plain, text: day ? firstReason(day) : null };
    }
    const change = changes.find((c) => c.kind === 'verdict');
    return code === 'verdict-changed' && change?.kind === 'verdict'
      ? { ...plain, wasAndIs: [change.from, change.to] }
      : plain;
  });
}

function movedOf({ changes, site }: Judged): MovedTime[] {
  const at = (ms: number | null): string | null => (ms === null ? null : rfc3339(ms, site.timeZone ?? 'UTC'));
  return changes.flatMap((c) =>
    c.kind === 'time' ? [{ time: c.time, from: at(c.fromMs), to: at(c.toMs) }] : [],
  );
}

const crewSeen = ({ kind, atMs, crew }: CrewTold, timeZone: string): CrewSeen => ({
  kind,
  at: rfc3339(atMs, timeZone),
  crew: crew.map(({ contact, how, atMs: ms }) => ({
    contact,
    how,
    at: ms === null ? null : rfc3339(ms, timeZone),
  })),
});

/** One moment for all, on the clocks of the sites; null where they had theirs at different ones. */
function eveningOf({ all }: Listed, language: 'en' | 'es'): string | null {
  const moments = new Set<string>();
  for (const { evening, site } of all) {
    if (evening !== null && site.timeZone !== null) {
      const atMs = Math.floor(evening.atMs / 60_000) * 60_000;
      moments.add(momentAt(rfc3339(atMs, site.timeZone), site.timeZone, language, null));
    }
    if (moments.size > 1) return null;
  }
  return [...moments][0] ?? null;
}
