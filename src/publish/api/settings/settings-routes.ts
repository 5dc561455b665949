// The pages /settings: sites, limits, orders and contacts over the same definitions as the API. Whoever may read may look;
// changing is for admins.

import type { FastifyInstance } from 'fastify';
import { definitionParams, notThere } from '#publish/api/definition-path.ts';
import { formPageHeaders } from '#publish/api/form-page-headers.ts';
import { tellFaultsAsPages } from '#publish/api/page-faults.ts';
import { takeForms } from '#publish/api/take-forms.ts';
import { valueAt } from '#publish/page/settings/body-path.ts';
import { NEW_BODIES } from '#publish/page/settings/forms.ts';
import { SCRIPT_LINK } from '#publish/page/settings/settings-links.ts';
import { type SettingsList, settingsPage } from '#publish/page/settings/settings-page.ts';
import { mayDo } from '#publish/viewer.ts';
import type { Definition } from '#store/definition.ts';
import { LIVE_SCRIPT } from './live-script.ts';
import { addSettingsChanges } from './settings-changes.ts';
import { sendForm } from './settings-forms.ts';
import { KINDS, type KindAt, nameOf } from './settings-kinds.ts';
import { oneQuery, settingsQuery } from './settings-query.ts';
import { revisionsOf, type Scene, type SettingsParts, sceneOf, seenOf } from './settings-scene.ts';

const HTML = 'text/html; charset=utf-8';
const CSP = 'content-security-policy';
/** Our own file and our own answers, on the pages that ask while somebody types. */
const WITH_SCRIPT = "default-src 'none';script-src 'self';connect-src 'self'";

export function addSettingsRoutes(app: FastifyInstance, parts: SettingsParts): void {
  app.register((pages, _options, done) => {
    takeForms(pages);
    addFrame(pages, parts);
    pages.get(
      '/settings',
      { config: { scope: 'read' }, schema: { hide: true, querystring: settingsQuery } },
      async (request, reply) => {
        const scene = sceneOf(parts, request);
        const lists = await listsOf(parts, scene);
        return reply.type(HTML).send(settingsPage(lists, mayDo(scene.viewer, 'admin'), scene.reader));
      },
    );
    pages.get(SCRIPT_LINK, { config: { scope: 'read' }, schema: { hide: true } }, async (_request, reply) =>
      reply.type('text/javascript; charset=utf-8').send(LIVE_SCRIPT),
    );
    for (const at of KINDS) {
      addOne(pages, parts, at);
      addSettingsChanges(pages, parts, at);
    }
    done();
  });
}

function addFrame(pages: FastifyInstance, { desk, headers }: SettingsParts): void {
  const withForm = formPageHeaders(headers);
  const withScript = { ...withForm, [CSP]: (withForm[CSP] ?? '').replace("default-src 'none'", WITH_SCRIPT) };
  tellFaultsAsPages(pages, desk);
  pages.addHook('onSend', async (_request, reply, payload) => {
    const hasScript = typeof payload === 'string' && payload.includes(`<script src="${SCRIPT_LINK}"`);
    reply.header('cache-control', 'no-store').headers(hasScript ? withScript : withForm);
  });
}

function addOne(pages: FastifyInstance, parts: SettingsParts, at: KindAt): void {
  const address = `/settings/${at.kind}`;
  pages.get(
    address,
    { config: { scope: 'admin' }, schema: { hide: true, querystring: settingsQuery } },
    async (request, reply) => {
      const draft = { id: null, revision: null, body: NEW_BODIES[at.kind], faults: [] };
      return sendForm({ parts, scene: sceneOf(parts, request), at, reply }, draft, [], 'found');
    },
  );
  pages.get<{ Params: { id: string } }>(
    `${address}/:id`,
    { config: { scope: at.reads }, schema: { hide: true, querystring: oneQuery, params: definitionParams } },
    async (request, reply) => {
      const { id } = request.params;
      const scene = sceneOf(parts, request);
      const revisions = await revisionsOf(parts, scene.viewer, at, id);
      const newest = revisions[0];
      if (!newest || newest.body === null) throw notThere(at.of, id);
      const { revision, body } = newest;
      const shown = (request.query as { saved?: string }).saved === undefined ? 'found' : 'saved';
      return sendForm({ parts, scene, at, reply }, { id, revision, body, faults: [] }, revisions, shown);
    },
  );
}

async function listsOf(parts: SettingsParts, { viewer }: Scene): Promise<SettingsList[]> {
  const shown = KINDS.filter(({ reads }) => mayDo(viewer, reads));
  const mayAdd = mayDo(viewer, 'admin') && viewer.sites === null;
  return Promise.all(
    shown.map(async (at) => {
      const all = await seenOf(parts, viewer, at);
      return {
        kind: at.kind,
        mayAdd,
        ones: all.map((one) => ({ id: one.id, name: nameOf(one.body, one.id), note: noteOf(one) })),
      };
    }),
  );
}

/** What tells one from the next in a list. */
function noteOf({ kind, id, body }: Definition): string {
  const text = (path: string): string => String(valueAt(body, path) ?? '');
  if (kind === 'site') return `${id}, ${text('limits')}`;
  if (kind === 'contact') return `${text('role')}, ${text('language') || 'en'}`;
  if (kind === 'order')
    return [text('issuer'), text('from'), text('to')].filter((part) => part !== '').join(', ');
  return (Array.isArray(body) ? body : [])
    .map((row) => String(valueAt(row, 'element') ?? Object.keys(row ?? {})[0] ?? ''))
    .join(', ');
}
