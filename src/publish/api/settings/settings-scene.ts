// What the pages of the settings are made from, for one request: who asks, how they want to be spoken to, what they may see.

import type { FastifyRequest } from 'fastify';
import { rfc3339 } from '#core/units/local-time.ts';
import { optedOutAnswer } from '#publish/answers/opted-out.ts';
import { notThere } from '#publish/api/definition-path.ts';
import { seen } from '#publish/api/definitions.ts';
import { readerChoices } from '#publish/api/reader-choices.ts';
import { viewerOf } from '#publish/api/request-viewer.ts';
import type { DefinitionDesk } from '#publish/definition-desk.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { DefinitionView, Revision } from '#publish/page/settings/definition-page.ts';
import type { FormContext } from '#publish/page/settings/form-maker.ts';
import type { SettingsReader } from '#publish/page/settings/settings-reader.ts';
import type { SettingsDesk } from '#publish/settings-desk.ts';
import { maySee, type Viewer } from '#publish/viewer.ts';
import type { Definition } from '#store/definition.ts';
import type { KindAt } from './settings-kinds.ts';

export interface SettingsParts {
  readonly desk: PlanDesk;
  readonly definitions: DefinitionDesk;
  readonly settings: SettingsDesk;
  /** Of every page. */
  readonly headers: Readonly<Record<string, string>>;
}

export interface Scene {
  readonly viewer: Viewer;
  readonly reader: SettingsReader;
}

interface Choices {
  readonly lang?: 'en' | 'es' | undefined;
  readonly units?: 'us' | 'si' | undefined;
  readonly look?: 'day' | 'night' | undefined;
}

export function sceneOf({ desk }: SettingsParts, request: FastifyRequest): Scene {
  const { lang, units, look } = request.query as Choices;
  const { preferences, demo } = desk;
  const reader = {
    language: lang ?? preferences.language,
    units: units ?? preferences.units,
    query: readerChoices({ lang, units, look }),
    demo,
  };
  return { viewer: viewerOf(request), reader };
}

/** All of a kind that the viewer may see, in force. */
export async function seenOf(
  { definitions }: SettingsParts,
  viewer: Viewer,
  { of }: KindAt,
): Promise<readonly Definition[]> {
  return seen(definitions, viewer, await definitions.current(viewer.organisation, of));
}

/** Newest first. Throws ServiceError `unknown_site`, `not_found` where there was never one, or not for this viewer. */
export async function revisionsOf(
  { definitions }: SettingsParts,
  viewer: Viewer,
  { of }: KindAt,
  id: string,
): Promise<readonly Definition[]> {
  if (of === 'site' && !maySee(viewer, id)) throw notThere(of, id);
  const { organisation } = viewer;
  const revisions = await seen(
    definitions,
    viewer,
    await definitions.history({ organisation, kind: of, id }),
  );
  if (revisions.length === 0) throw notThere(of, id);
  return revisions;
}

export async function contextOf(
  parts: SettingsParts,
  { viewer, reader }: Scene,
  isNew: boolean,
): Promise<FormContext> {
  const sets = await seenOf(parts, viewer, { kind: 'limits', of: 'limit-set', reads: 'read', decides: true });
  return {
    language: reader.language,
    sites: parts.desk.sites(viewer).map(({ id, name }) => [id, name] as const),
    limitSets: sets.map(({ id }) => id),
    isNew,
  };
}

const MOST_REVISIONS = 20;

export function historyOf(
  { desk }: SettingsParts,
  viewer: Viewer,
  revisions: readonly Definition[],
): Revision[] {
  const zone = desk.sites(viewer).find(({ timeZone }) => timeZone !== null)?.timeZone ?? 'UTC';
  return revisions.slice(0, MOST_REVISIONS).map(({ revision, origin, changedAtMs, changedBy, body }) => {
    const at = `${rfc3339(changedAtMs, zone).slice(0, 16).replace('T', ' ')} (${zone})`;
    return { revision, origin, at, by: changedBy, isOut: body === null };
  });
}

/** Undefined for what is no contact. */
export async function optedOutOf(
  { definitions }: SettingsParts,
  { organisation }: Viewer,
  { of }: KindAt,
  one: Pick<Definition, 'id' | 'body'>,
): Promise<DefinitionView['optedOut']> {
  if (of !== 'contact') return undefined;
  const answer = optedOutAnswer(one, await definitions.optOuts(organisation));
  return answer && { since: answer.since.slice(0, 10), words: answer.words };
}
