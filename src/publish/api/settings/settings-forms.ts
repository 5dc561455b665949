// Sends the pages of one definition: its form as it is, or as it was typed, with what is wrong; and what a change does.

import type { FastifyReply } from 'fastify';
import type { BodyFault } from '#publish/definition-desk.ts';
import { bodyChanges } from '#publish/page/settings/body-changes.ts';
import { definitionPage } from '#publish/page/settings/definition-page.ts';
import { FORMS } from '#publish/page/settings/forms.ts';
import { previewPage } from '#publish/page/settings/preview-page.ts';
import type { Weeks } from '#publish/page/settings/week-change.ts';
import { mayDo } from '#publish/viewer.ts';
import type { Definition } from '#store/definition.ts';
import { weeksOf } from './proposed-weeks.ts';
import { type KindAt, nameOf } from './settings-kinds.ts';
import { contextOf, historyOf, optedOutOf, type Scene, type SettingsParts } from './settings-scene.ts';

const HTML = 'text/html; charset=utf-8';
/** Planned for one preview: each takes two weeks of plans. */
const MOST_SITES = 6;
/** An order has no id before it is saved. */
const NO_ID = 'not-saved-yet';

export interface Draft {
  readonly id: string | null;
  readonly revision: number | null;
  readonly body: unknown;
  readonly faults: readonly BodyFault[];
}

interface Sent {
  readonly parts: SettingsParts;
  readonly scene: Scene;
  readonly at: KindAt;
  readonly reply: FastifyReply;
}

export async function sendForm(
  { parts, scene, at, reply }: Sent,
  draft: Draft,
  revisions: readonly Definition[],
  shown: 'found' | 'saved' | 'sent',
): Promise<FastifyReply> {
  const { id, revision, body, faults } = draft;
  const { viewer, reader } = scene;
  const isNew = revision === null;
  const context = await contextOf(parts, scene, isNew);
  const optedOut = id === null ? undefined : await optedOutOf(parts, viewer, at, { id, body });
  const page = definitionPage(
    {
      kind: at.kind,
      id: isNew ? null : id,
      name: nameOf(body, id),
      revision,
      body,
      form: FORMS[at.kind](body, context),
      typedId: id ?? '',
      faults,
      mayChange: mayDo(viewer, 'admin') && (viewer.sites === null || at.of === 'site'),
      saved: shown === 'saved',
      isSent: shown === 'sent',
      history: historyOf(parts, viewer, revisions),
      ...(optedOut === undefined ? {} : { optedOut }),
    },
    reader,
  );
  return reply
    .code(faults.length > 0 ? 400 : 200)
    .type(HTML)
    .send(page);
}

export interface Refusal {
  readonly status: number;
  readonly words: string | null;
  readonly usedBy: readonly string[];
}

const NONE: Refusal = { status: 200, words: null, usedBy: [] };

/** `before`: what is in force now; null: nothing. */
export async function sendPreview(
  { parts, scene, at, reply }: Sent,
  draft: Omit<Draft, 'faults'>,
  before: Definition | null,
  refusal: Refusal = NONE,
): Promise<FastifyReply> {
  const { id, body } = draft;
  const context = await contextOf(parts, scene, draft.revision === null);
  const formOf = (of: unknown) => (of === null ? null : { body: of, form: FORMS[at.kind](of, context) });
  const page = previewPage(
    {
      kind: at.kind,
      id,
      name: nameOf(body ?? before?.body, id),
      revision: draft.revision,
      body,
      changes: bodyChanges(formOf(before?.body ?? null), formOf(body)),
      weeks: at.decides ? await weeksFor(parts, scene, at, draft) : null,
      refusal: refusal.words,
      usedBy: refusal.usedBy,
    },
    scene.reader,
  );
  return reply.code(refusal.status).type(HTML).send(page);
}

export async function weeksFor(
  { desk, settings }: SettingsParts,
  { viewer, reader }: Scene,
  { of }: KindAt,
  { id, body }: Pick<Draft, 'id' | 'body'>,
): Promise<Weeks> {
  const { organisation, sites } = viewer;
  const proposed = { organisation, sites, kind: of, id: id ?? NO_ID, body };
  return weeksOf(desk, await settings.weeks(proposed, MOST_SITES), reader);
}
