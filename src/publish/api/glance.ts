// GET and POST /sites/{id}/now: the glance of a site, and what is tapped there. Kept and back to the page.

import { randomBytes } from 'node:crypto';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { DAY_MS } from '#core/units/time.ts';
import { wasLit } from '#core/watch/pit-lit.ts';
import { burnAnswer } from '#publish/answers/watch.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { glancePage } from '#publish/page/glance-page.ts';
import type { GlanceView } from '#publish/page/glance-view.ts';
import { msOf } from '#publish/page/moments.ts';
import { nextMoment } from '#publish/page/next-moment.ts';
import { siteKeyOrThrow } from '#publish/site-key.ts';
import { mayDo } from '#publish/viewer.ts';
import type { MessageSeen, WatchDesk } from '#publish/watch-desk.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { doGlance, type GlanceBody, glanceBody } from './glance-form.ts';
import { nowOf } from './live-of.ts';
import { pageQuery } from './query.ts';
import { queryText } from './query-text.ts';
import { readerChoices } from './reader-choices.ts';
import { readerTag } from './reader-tag.ts';
import { nameCookie, rememberedName } from './remembered-name.ts';
import { viewerOf } from './request-viewer.ts';
import type { WatchingParts } from './watch.ts';
import { zoneOf } from './watch-period.ts';

const query = pageQuery.omit({ day: true });
type Query = z.output<typeof query>;
const params = z.object({ id: z.string().max(80) });
/** A cover tapped by a slip is seen to be one within so long. */
const SLIP_MS = DAY_MS / 2;

export interface GlanceParts {
  readonly desk: PlanDesk;
  readonly watching: WatchingParts;
  /** Addresses of the scripts of the page. */
  readonly scripts: () => readonly string[];
}

/** Bodies of forms must be taken by `pages` already. */
export function addGlance(pages: FastifyInstance, parts: GlanceParts): void {
  const { desk, watching } = parts;
  pages.get<{ Params: { id: string }; Querystring: Query }>(
    '/sites/:id/now',
    { config: { scope: 'read' }, schema: { hide: true, querystring: query, params } },
    async (request, reply) => {
      const site = desk.site(siteKeyOrThrow(viewerOf(request), request.params.id));
      return reply.type('text/html; charset=utf-8').send(glancePage(await viewFor(parts, site, request)));
    },
  );
  pages.post<{ Params: { id: string }; Querystring: Query; Body: GlanceBody }>(
    '/sites/:id/now',
    {
      config: { scope: 'burn' },
      schema: { hide: true, querystring: query, params, body: glanceBody },
    },
    async (request, reply) => {
      const viewer = viewerOf(request);
      const siteKey = siteKeyOrThrow(viewer, request.params.id);
      const site = desk.site(siteKey);
      const doing = { watch: watching.desk, viewer, siteKey, timeZone: zoneOf(site), nowMs: desk.nowMs() };
      await doGlance(doing, request.body);
      const chosen = new URLSearchParams(readerChoices(request.query));
      return reply
        .code(303)
        .header('set-cookie', nameCookie(request.body.by))
        .header('location', `/sites/${site.id}/now${chosen.size === 0 ? '' : `?${chosen}`}`)
        .send();
    },
  );
}

async function viewFor(
  { desk, watching, scripts }: GlanceParts,
  site: DeskSite,
  request: FastifyRequest<{ Querystring: Query }>,
): Promise<GlanceView> {
  const viewer = viewerOf(request);
  const live = await nowOf(watching, desk, site, request.query);
  const nowMs = desk.nowMs();
  const { language, units } = { ...desk.preferences, ...chosenBy(request.query) };
  const messages = await watching.desk.messages(site.key, nowMs - DAY_MS, nowMs + 1);
  const mayTap = mayDo(viewer, 'burn');
  return {
    live,
    toAnswer: messages.filter((message) => asks(message, nowMs)).map(({ id }) => id),
    ...(await besides(watching.desk, site, live, nowMs)),
    taps: mayTap
      ? { form: randomBytes(9).toString('base64url'), by: rememberedName(request), key: viewer.name }
      : null,
    reader: { language, units },
    query: queryText(request.query),
    phone: {
      writtenMs: nowMs,
      voidAtMs: sendsToFire(live) ? msOf(live.goodUntil) : null,
      timeZone: live.timeZone,
      language,
      reader: readerTag(viewer),
      scripts: scripts(),
    },
  };
}

const chosenBy = ({ lang, units }: Query) => ({
  ...(lang ? { language: lang } : {}),
  ...(units ? { units } : {}),
});

/** A go, or when to light or to give wood: none of it is told for longer than it is known. */
function sendsToFire(live: NowAnswer): boolean {
  const next = nextMoment(live)?.what;
  return live.verdict === 'go' || next === 'lightUp' || next === 'lastCharge';
}

const asks = ({ needsAnswer, validUntilMs, answers }: MessageSeen, nowMs: number): boolean =>
  needsAnswer && validUntilMs > nowMs && !answers.some(({ answer }) => answer === 'got-it');

/** Other pits that burn, and where none does what was covered last. */
async function besides(
  watch: WatchDesk,
  site: DeskSite,
  live: NowAnswer,
  nowMs: number,
): Promise<Pick<GlanceView, 'others' | 'ended' | 'covered'>> {
  const zone = zoneOf(site);
  const records = await watch.burns(site.key, nowMs - 7 * DAY_MS, nowMs + 1);
  const others = records
    .filter(({ burn }) => burn.closedAtMs === null && burn.id !== live.burn?.id)
    .map((record) => burnAnswer(record, zone));
  const last = records
    .filter(({ burn }) => burn.closedAtMs !== null && nowMs - burn.closedAtMs <= SLIP_MS)
    .toSorted((a, b) => (b.burn.closedAtMs ?? 0) - (a.burn.closedAtMs ?? 0))[0];
  const ended = records
    .filter(({ burn }) => burn.closedAtMs !== null && wasLit(burn))
    .map((record) => burnAnswer(record, zone));
  return { others, ended, covered: last === undefined || live.burn !== null ? null : burnAnswer(last, zone) };
}
