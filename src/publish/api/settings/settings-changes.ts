// POST /settings/{kind}: what was typed, shown with what it does; POST …/save: exactly what was shown, saved as the API saves.

import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { z } from 'zod';
import { ServiceError } from '#errors.ts';
import { refuseBeyondKey } from '#publish/api/definition-changes.ts';
import type { BodyFault } from '#publish/definition-desk.ts';
import { html, textOf } from '#publish/page/html.ts';
import { valueAt, withValue } from '#publish/page/settings/body-path.ts';
import type { Form } from '#publish/page/settings/form-field.ts';
import { FORMS, newRow } from '#publish/page/settings/forms.ts';
import { oneLink, settingsLink } from '#publish/page/settings/settings-links.ts';
import { weekChange } from '#publish/page/settings/week-change.ts';
import { signatureOf } from '#publish/viewer.ts';
import { settingsWords } from '#publish/wording/settings-words.ts';
import type { Definition } from '#store/definition.ts';
import { type Posted, postedBody, readPosted } from './posted.ts';
import { type Draft, sendForm, sendPreview, weeksFor } from './settings-forms.ts';
import type { KindAt } from './settings-kinds.ts';
import { settingsQuery } from './settings-query.ts';
import { contextOf, revisionsOf, type Scene, type SettingsParts, sceneOf } from './settings-scene.ts';
import { typedBody } from './typed-body.ts';

type PostRequest = FastifyRequest<{ Body: z.output<typeof postedBody> }>;

interface Work {
  readonly parts: SettingsParts;
  readonly scene: Scene;
  readonly at: KindAt;
  readonly reply: FastifyReply;
  readonly posted: Posted;
}

const schema = { hide: true, querystring: settingsQuery, body: postedBody };

export function addSettingsChanges(pages: FastifyInstance, parts: SettingsParts, at: KindAt): void {
  const options = { config: { scope: 'admin' as const }, schema };
  const workOf = (request: PostRequest, reply: FastifyReply): Work => {
    const scene = sceneOf(parts, request);
    const posted = readPosted(request.body);
    refuseBeyondKey(scene.viewer, at.of, posted.id ?? idWithin(at, posted.content));
    return { parts, scene, at, reply, posted };
  };
  const address = `/settings/${at.kind}`;
  pages.post(address, options, async (request, reply) => propose(workOf(request as PostRequest, reply)));
  pages.post(`${address}/save`, options, async (request, reply) =>
    save(workOf(request as PostRequest, reply)),
  );
  if (at.kind === 'limits')
    pages.post(`${address}/week`, options, async (request, reply) =>
      week(workOf(request as PostRequest, reply)),
    );
}

/** Sites and contacts hold their own; an order gets one when it is saved. */
function idWithin({ of }: KindAt, body: unknown): string | null {
  const id = of === 'site' || of === 'contact' ? valueAt(body, 'id') : null;
  return typeof id === 'string' && id !== '' ? id : null;
}

async function propose(work: Work): Promise<FastifyReply> {
  const { parts, scene, at, posted } = work;
  const { wish, content, revision } = posted;
  if (wish === 'take-out') return preview(work, { id: posted.id, revision, body: null });
  const form = FORMS[at.kind](content, await contextOf(parts, scene, revision === null));
  const body = wish === 'edit' ? content : typedBody(form, content, posted.typed);
  const draft = { id: posted.id ?? idWithin(at, body), revision, body };
  // What was typed may name another one.
  refuseBeyondKey(scene.viewer, at.of, draft.id);
  if (wish === 'preview') return preview(work, draft);
  const changed = wish === 'edit' ? body : withRow(form, body, wish);
  return sendForm(work, { ...draft, body: changed, faults: [] }, await historyFor(work, draft), 'sent');
}

/** A row more or one less, where the form has a button for it. */
function withRow({ adds, groups }: Form, body: unknown, wish: string): unknown {
  const [word, ...rest] = wish.split(':');
  if (word === 'remove') {
    const path = rest.join(':');
    return groups.some((group) => group.removable && group.path === path)
      ? withValue(body, path, undefined)
      : body;
  }
  const [kind = '', path = ''] = rest;
  const row = newRow(kind);
  if (word !== 'add' || row === null || !adds.some((add) => add.kind === kind && add.path === path))
    return body;
  const there = path === '' ? body : valueAt(body, path);
  // One shift alone may be written without a list.
  const list = there === undefined ? [] : [there].flat();
  return withValue(body, path, [...list, row]);
}

async function preview(work: Work, draft: Omit<Draft, 'faults'>): Promise<FastifyReply> {
  const before = await newestFor(work, draft);
  const faults = await faultsOf(work, draft, before);
  if (faults.length > 0) return sendForm(work, { ...draft, faults }, await historyFor(work, draft), 'sent');
  const isNewest = before === null || draft.revision === null || before.revision === draft.revision;
  if (isNewest) return sendPreview(work, draft, before);
  return sendPreview(work, { ...draft, revision: before.revision }, before, meanwhile(work));
}

const meanwhile = ({ scene }: Work) => ({
  status: 412,
  words: settingsWords(scene.reader.language).meanwhile,
  usedBy: [],
});

/** What is in force; null where it is to be new. Throws ServiceError `not_found`, `unknown_site`. */
async function newestFor(
  { parts, scene, at }: Work,
  { id, revision }: Pick<Draft, 'id' | 'revision'>,
): Promise<Definition | null> {
  if (revision === null || id === null) return null;
  return (await revisionsOf(parts, scene.viewer, at, id))[0] ?? null;
}

async function historyFor(work: Work, draft: Pick<Draft, 'id' | 'revision'>): Promise<readonly Definition[]> {
  const { parts, scene, at } = work;
  return draft.id === null || draft.revision === null ? [] : revisionsOf(parts, scene.viewer, at, draft.id);
}

async function faultsOf(
  { parts, scene, at }: Work,
  { id, body, revision }: Omit<Draft, 'faults'>,
  before: Definition | null,
): Promise<readonly BodyFault[]> {
  if (body === null) return [];
  const { organisation, sites } = scene.viewer;
  const found = await parts.definitions.check(at.of, id ?? '', body, organisation);
  // What others may be named is not told to whoever may not see them.
  const faults =
    sites === null
      ? found
      : found.map((f) => (f.path === 'limits' ? { ...f, message: 'no such limit set' } : f));
  if (revision !== null || id === null || before !== null) return faults;
  const there = await parts.definitions.newest({ organisation, kind: at.of, id });
  if (there === null || there.body === null) return faults;
  return [{ path: 'id', message: 'there is one of that name already' }, ...faults];
}

async function save(work: Work): Promise<FastifyReply> {
  const { parts, scene, at, posted } = work;
  const { viewer } = scene;
  const { revision, content: body } = posted;
  const id = posted.id ?? idWithin(at, body);
  const draft = { id, revision, body };
  const { organisation, sites } = viewer;
  const replaces = revision === null ? ('new' as const) : [revision];
  const asked = {
    organisation,
    sites,
    kind: at.of,
    id,
    body,
    replaces,
    who: signatureOf(viewer),
    once: null,
  };
  let made: Definition | null = null;
  try {
    await parts.definitions.change(asked, (definition) => {
      made = definition;
      return { status: 303, body: '', headers: {} };
    });
  } catch (fault) {
    return refusedSave(work, draft, fault);
  }
  return goToSaved(work, draft, (made as Definition | null)?.id ?? id ?? '');
}

function goToSaved({ at, scene, reply }: Work, { body }: Pick<Draft, 'body'>, id: string): FastifyReply {
  const { query } = scene.reader;
  const link = body === null ? settingsLink(query) : oneLink(at.kind, id, query);
  const mark = body === null ? '' : `${link.includes('?') ? '&' : '?'}saved=1`;
  return reply.code(303).header('location', `${link}${mark}`).send();
}

/** What was not saved is shown again, with why. */
async function refusedSave(work: Work, draft: Omit<Draft, 'faults'>, fault: unknown): Promise<FastifyReply> {
  if (!(fault instanceof ServiceError)) throw fault;
  const { code, facts } = fault;
  const isThere = code === 'changed_meanwhile' || code === 'already_there';
  // Pressed twice: the second time it is there already.
  if (isThere && draft.id !== null && (await isSaved(work, draft))) return goToSaved(work, draft, draft.id);
  if (code === 'changed_meanwhile') {
    const before = await newestFor(work, draft);
    return sendPreview(
      work,
      { ...draft, revision: before?.revision ?? draft.revision },
      before,
      meanwhile(work),
    );
  }
  if (code === 'in_use') {
    const usedBy = facts['usedBy'] as readonly string[];
    return sendPreview(work, draft, await newestFor(work, draft), { status: 409, words: null, usedBy });
  }
  if (code === 'bad_body' || code === 'already_there') {
    const told = facts['faults'] as readonly BodyFault[] | undefined;
    const faults = told ?? [{ path: 'id', message: fault.message }];
    return sendForm(work, { ...draft, faults }, await historyFor(work, draft), 'sent');
  }
  throw fault;
}

async function isSaved({ parts, scene, at }: Work, { id, body }: Omit<Draft, 'faults'>): Promise<boolean> {
  if (id === null) return false;
  const { organisation } = scene.viewer;
  const newest = await parts.definitions.newest({ organisation, kind: at.of, id });
  return newest !== null && JSON.stringify(newest.body) === JSON.stringify(body);
}

/** The part of the preview that moves while somebody types. */
async function week(work: Work): Promise<FastifyReply> {
  const { parts, scene, at, reply, posted } = work;
  const { content, id, revision, typed } = posted;
  const { language } = scene.reader;
  const form = FORMS[at.kind](content, await contextOf(parts, scene, revision === null));
  const draft = { id, revision, body: typedBody(form, content, typed) };
  const before = await newestFor(work, draft);
  const faults = await faultsOf(work, draft, before);
  const words = settingsWords(language);
  const told =
    faults.length > 0
      ? html`<ul class="bad" lang="en">${faults.map((f) => html`<li>${f.path}: ${f.message}</li>`)}</ul>`
      : html`<p class="note">${words.live}</p>${weekChange(await weeksFor(parts, scene, at, draft), language)}`;
  return reply.type('text/html; charset=utf-8').send(textOf(told));
}
