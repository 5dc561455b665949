// GET /sites/{id}/history and history.csv: a past day as it was known then.

import type { FastifyInstance, FastifyRequest } from 'fastify';
import { z } from 'zod';
import {
  addDays,
  clockTimeMs,
  daysBetween,
  type LocalDate,
  localDateAt,
  rfc3339,
  startOfDayMs,
} from '#core/units/local-time.ts';
import { DAY_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';
import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import { burnAnswer } from '#publish/answers/watch.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { recordCsv } from '#publish/history/record-csv.ts';
import { noticedLine, observedLine, planLine, toldLine } from '#publish/history/to-view.ts';
import type { HistoryDesk, PlanKnown } from '#publish/history-desk.ts';
import { csvHeaders } from '#publish/list/csv.ts';
import { historyPage } from '#publish/page/history-page.ts';
import type { HistoryView, KnownLine } from '#publish/page/history-view.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import { askedDay, pageQuery } from './query.ts';
import { queryText } from './query-text.ts';
import { viewerOf } from './request-viewer.ts';
import { wantedBy } from './site-answers.ts';
import type { WatchingParts } from './watch.ts';

interface HistoryParts {
  readonly desk: PlanDesk;
  readonly watching: WatchingParts | null;
  readonly history: HistoryDesk;
}

const historyQuery = pageQuery.extend({
  at: z
    .string()
    .regex(/^(([01]\d|2[0-3]):[0-5]\d)?$/, 'expected a clock time HH:MM of the site')
    .optional(),
});
type HistoryQuery = z.output<typeof historyQuery>;

const params = z.object({ id: z.string().max(80) });

export function addHistoryPage(pages: FastifyInstance, parts: HistoryParts): void {
  type Asked = { Params: { id: string }; Querystring: HistoryQuery };
  const viewOf = (request: FastifyRequest<Asked>): Promise<HistoryView> => {
    const site = parts.desk.site(siteKeyOrThrow(viewerOf(request), request.params.id));
    return historyView(parts, site, request.query);
  };
  const options = {
    config: { scope: 'read' },
    schema: { hide: true, params, querystring: historyQuery },
  } as const;
  pages.get<Asked>('/sites/:id/history', options, async (request, reply) =>
    reply.type('text/html; charset=utf-8').send(historyPage(await viewOf(request))),
  );
  pages.get<Asked>('/sites/:id/history.csv', options, async (request, reply) => {
    const view = await viewOf(request);
    return reply.headers(csvHeaders(`${view.site.id}-${view.day}`)).send(recordCsv(view));
  });
}

async function historyView(
  { desk, watching, history }: HistoryParts,
  site: DeskSite,
  query: HistoryQuery,
): Promise<HistoryView> {
  const { timeZone, today } = site;
  if (timeZone === null || today === null)
    throw new ServiceError('no_forecast', `no time zone of ${site.id} is known yet`, { retryable: true });
  const nowMs = desk.nowMs();
  const day = askedDay(query.day, today.date);
  const fromMs = startOfDayMs(day, timeZone);
  const toMs = startOfDayMs(addDays(day, 1), timeZone);
  const clock = query.at || history.dawnOf(site.key);
  const atMs = Math.min(clockTimeMs(day, clock, timeZone), nowMs);
  const [plans, known] = await Promise.all([
    history.plansOf(site.key, day, Math.min(toMs, nowMs + 1)),
    history.knownAt(site.key, day, atMs),
  ]);
  const lines = plans.map((made) => planLine(made, timeZone));
  const { reader } = wantedBy(desk, query, timeZone, day, null);
  const watched = await watchedOn(watching, site.key, { fromMs, toMs, day });
  const answer = known?.plan ? answerOf(known, { ...wantedBy(desk, query, timeZone, day, null) }) : null;
  const stood = lines.find(({ id }) => id === known?.planId) ?? null;
  return {
    site: { id: site.id, name: site.name, timeZone },
    day,
    asOf: rfc3339(nowMs, timeZone),
    known: { at: rfc3339(atMs, timeZone), clock, plan: stood, rebuilt: known?.rebuilt ?? null, answer },
    plans: lines,
    told: watched.messages.map((message) => toldLine(message, timeZone)),
    burns: watched.burns.map((burn) => burnAnswer(burn, timeZone)),
    noticed: watching ? watched.transitions.map((t) => noticedLine(t, reader, watching.say)) : [],
    observed: watched.observations.map((o) => observedLine(o, known?.plan ?? null, timeZone)),
    keptDays: history.keptDays,
    daysAgo: daysBetween(day, localDateAt(nowMs, timeZone)),
    program: history.program,
    demo: desk.demo,
    reader: { language: reader.language, units: reader.units },
    query: queryText(query),
  };
}

function answerOf(known: PlanKnown, wanted: Parameters<typeof dayPlanAnswer>[2]): KnownLine['answer'] {
  const day = known.plan?.days[0];
  return known.plan && day ? dayPlanAnswer(known.plan, day, wanted) : null;
}

interface DaySpan {
  readonly fromMs: number;
  readonly toMs: number;
  readonly day: LocalDate;
}

/** The evening text of a day goes out on the day before it; a fire that burns through midnight belongs to both. */
async function watchedOn(watching: WatchingParts | null, key: string, { fromMs, toMs, day }: DaySpan) {
  if (watching === null) return { messages: [], burns: [], transitions: [], observations: [] };
  const { desk } = watching;
  const [messages, before, burns, transitions, observations] = await Promise.all([
    desk.messages(key, fromMs, toMs),
    desk.messages(key, fromMs - DAY_MS, fromMs),
    desk.burns(key, fromMs - DAY_MS, toMs),
    desk.noticed(key, fromMs, toMs),
    desk.observedWithin(key, fromMs, toMs),
  ]);
  const isOfDay = (ms: number): boolean => fromMs <= ms && ms < toMs;
  return {
    messages: [...messages, ...before.filter(({ about }) => about === day)].sort((a, b) => a.atMs - b.atMs),
    burns: burns
      .filter(({ burn, taps }) => isOfDay(burn.openedAtMs) || taps.some((t) => isOfDay(t.tappedAtMs)))
      .sort((a, b) => a.burn.openedAtMs - b.burn.openedAtMs),
    transitions,
    observations,
  };
}
