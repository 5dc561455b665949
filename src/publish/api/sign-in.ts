// GET and POST /sign-in/{key}: the personal link that signs a browser in. /sign-in: who is signed in, and a field for whoever
// has a link or a key in hand; POST /sign-out. A link that is unknown, has ended or was taken back is answered alike.

import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { localDateAt } from '#core/units/local-time.ts';
import { ServiceError } from '#errors.ts';
import type { Access } from '#publish/access/caller.ts';
import { isProvenOwn } from '#publish/access/cross-site.ts';
import type { KeyRing } from '#publish/access/key-ring.ts';
import { roleOf } from '#publish/access/roles.ts';
import { clearCookie, setCookie } from '#publish/access/sign-in-cookie.ts';
import { viewerOfKey } from '#publish/access/viewer-of-key.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { homeLink, siteLink } from '#publish/page/links.ts';
import { type SignInView, signInPage } from '#publish/page/sign-in-page.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { ApiKey } from '#store/api-key.ts';
import { isSecure, originOf } from './browser-heads.ts';
import { formPageHeaders } from './form-page-headers.ts';
import { readerChoices } from './reader-choices.ts';
import { takeForms } from './take-forms.ts';

const HTML = 'text/html; charset=utf-8';

/** What a messenger adds to a link is passed over: nothing may keep a crew out. */
const choices = z
  .object({
    lang: z.enum(['en', 'es']).optional().catch(undefined),
    units: z.enum(['us', 'si']).optional().catch(undefined),
    look: z.enum(['day', 'night']).optional().catch(undefined),
    out: z.literal('1').optional().catch(undefined),
  })
  .catch({});
type Choices = z.output<typeof choices>;

const linkParams = z.object({ key: z.string().max(400) });
const keyBody = z.object({ key: z.string().max(2000).optional() }).nullish();

export interface SignInParts {
  readonly desk: PlanDesk;
  readonly access: Access;
  /** Of every page. */
  readonly headers: Readonly<Record<string, string>>;
}

export type SendSignIn = (request: FastifyRequest, reply: FastifyReply, view: SignInView) => FastifyReply;

/** Sends one of the pages; a browser may keep none, and tells nobody more than the origin that it came from. */
export function createSignInSender({ desk, headers }: Pick<SignInParts, 'desk' | 'headers'>): SendSignIn {
  const own = {
    ...formPageHeaders(headers),
    // With `no-referrer` the button would be sent from an origin that nobody knows; with `same-origin` the link would go along.
    'referrer-policy': 'strict-origin',
    'cache-control': 'no-store',
  };
  return (request, reply, view) => {
    const { lang, units, look } = choices.parse(request.query);
    const { preferences, demo } = desk;
    const reader = {
      language: lang ?? preferences.language,
      units: units ?? preferences.units,
      query: readerChoices({ lang, units, look }),
      demo,
    };
    return reply.headers(own).type(HTML).send(signInPage(view, reader));
  };
}

export function addSignInRoutes(app: FastifyInstance, parts: SignInParts, send: SendSignIn): void {
  const { access, desk } = parts;
  app.register((pages, _options, done) => {
    takeForms(pages);
    pages.get<{ Querystring: Choices }>('/sign-in', open({ querystring: choices }), async (request, reply) =>
      send(request, reply, signedInView(parts, request)),
    );
    pages.get<{ Params: { key: string } }>(
      '/sign-in/:key',
      open({ querystring: choices, params: linkParams }),
      async (request, reply) => {
        if (access.kind === 'open') return send(request, reply, { kind: 'open' });
        const key = keyIn(access.ring, request.params.key, desk.nowMs());
        if (key === null) return send(request, reply.code(404), { kind: 'unknown' });
        return send(request, reply, linkView(desk, key));
      },
    );
    pages.post<{ Params: { key: string }; Querystring: Choices }>(
      '/sign-in/:key',
      open({ querystring: choices, params: linkParams }),
      async (request, reply) => signIn(parts, send, request, reply, request.params.key),
    );
    pages.post<{ Body: z.output<typeof keyBody>; Querystring: Choices }>(
      '/sign-in',
      open({ querystring: choices, body: keyBody }),
      async (request, reply) => signIn(parts, send, request, reply, request.body?.key ?? ''),
    );
    pages.post<{ Querystring: Choices }>(
      '/sign-out',
      open({ querystring: choices }),
      async (request, reply) => {
        refuseUnproven(request);
        const query = new URLSearchParams({ ...readerChoices(request.query), out: '1' });
        return goTo(reply.header('set-cookie', clearCookie(isSecure(request))), `/sign-in?${query}`);
      },
    );
    done();
  });
}

/** For everybody; and what is in the body is forms', which an API document does not tell of. */
const open = (schema: object) => ({ config: { scope: 'open' as const }, schema: { hide: true, ...schema } });

async function signIn(
  { access, desk }: SignInParts,
  send: SendSignIn,
  request: FastifyRequest,
  reply: FastifyReply,
  text: string,
): Promise<FastifyReply> {
  refuseUnproven(request);
  if (access.kind === 'open') return send(request, reply, { kind: 'open' });
  const nowMs = desk.nowMs();
  const key = keyIn(access.ring, text, nowMs);
  if (key === null) return send(request, reply.code(404), { kind: 'unknown' });
  access.used(key.prefix, nowMs);
  const [token = ''] = KEY.exec(text) ?? [];
  const cookie = setCookie(token, { isSecure: isSecure(request), nowMs, endsMs: key.expiresAtMs });
  const sites = desk.sites(viewerOfKey(key));
  const query = readerChoices(request.query as Choices);
  const only = sites.length === 1 ? sites[0] : undefined;
  return goTo(reply.header('set-cookie', cookie), only ? siteLink(only.id, query, null) : homeLink(query));
}

const goTo = (reply: FastifyReply, location: string): FastifyReply =>
  reply.code(303).headers({ location, 'cache-control': 'no-store', 'referrer-policy': 'no-referrer' }).send();

/** A page elsewhere must not sign anybody in or out. */
function refuseUnproven(request: FastifyRequest): void {
  if (isProvenOwn(originOf(request), isSecure(request))) return;
  throw new ServiceError('forbidden', 'only a page of this service may sign anybody in or out');
}

/** A whole link is taken, too. */
const KEY = /pw_[a-z2-9]{8}_[A-Za-z0-9_-]{43}(?![A-Za-z0-9_-])/;

function keyIn(ring: KeyRing, text: string, nowMs: number): ApiKey | null {
  const [token] = KEY.exec(text) ?? [];
  return token === undefined ? null : ring.find(token, nowMs);
}

function linkView(desk: PlanDesk, key: ApiKey): SignInView {
  const viewer = viewerOfKey(key);
  const zone = desk.sites(viewer).find(({ timeZone }) => timeZone !== null)?.timeZone ?? 'UTC';
  const { expiresAtMs } = key;
  const endsOn = expiresAtMs === null ? null : localDateAt(expiresAtMs, zone);
  return { kind: 'link', holder: holderOf(desk, viewer), endsOn };
}

function signedInView({ access, desk }: SignInParts, request: FastifyRequest): SignInView {
  if (access.kind === 'open') return { kind: 'open' };
  const { viewer, byCookie } = request;
  if (viewer !== null) return { kind: 'signed-in', holder: holderOf(desk, viewer), byCookie };
  return { kind: (request.query as Choices).out === undefined ? 'needed' : 'signed-out' };
}

function holderOf(desk: PlanDesk, viewer: Viewer): Extract<SignInView, { kind: 'link' }>['holder'] {
  const { name, scopes, sites } = viewer;
  const named = sites === null ? null : desk.sites(viewer).map((site) => site.name);
  return { name, role: roleOf(scopes), scopes: [...scopes], sites: named };
}
