// Who may be told of messages: what the store knows of all their sites, asked in a handful of questions however many they are.

import type { Message } from '#core/notices/message.ts';
import { isRelief } from '#core/notices/notice.ts';
import { standingVerdict } from '#core/notices/standing-verdict.ts';
import type { Audience } from '#core/notices/who-is-told.ts';
import type { Verdict } from '#core/rules/finding.ts';
import type { OptOut } from '#store/watch/records.ts';
import { withOptOuts } from './contacts-of.ts';
import type { WatchDeps, WatchedSite } from './watched-site.ts';

export interface AudienceNow extends Audience {
  /** The worst that stands at the site at this moment. */
  readonly standing: Verdict;
}

/** Null for a site that is not defined any more. */
export type AudienceOf = (message: Message) => AudienceNow | null;

export async function audiencesOf(deps: WatchDeps, messages: readonly Message[]): Promise<AudienceOf> {
  const { watch } = deps.store;
  const views = new Map([...new Set(messages.map(({ site }) => site))].map((key) => [key, deps.view(key)]));
  const sites = [...views.keys()];
  const transitions = messages.flatMap((message) => message.transitions);
  const [open, standing, silences, heard, newest, optOuts] = await Promise.all([
    watch.openBurns(sites),
    watch.standing(sites),
    watch.silences(sites, deps.nowMs()),
    // Only what is taken back, and what is told once more, asks who was told before.
    watch.heard(transitions.filter((t) => isRelief(t) || t.kind === 'still')),
    watch.newest([...new Set(transitions.map(({ notice }) => notice))]),
    optOutsOf(deps, [...views.values()]),
  ]);
  const burning = new Set(open.map(({ site }) => site));
  const standingOf = Map.groupBy(standing, ({ site }) => site);
  const silencesOf = Map.groupBy(silences, ({ site }) => site);
  return ({ site }) => {
    const watched = views.get(site) ?? null;
    if (watched === null) return null;
    return {
      contacts: withOptOuts(watched.contacts, optOuts.get(watched.organisation) ?? []),
      silences: silencesOf.get(site) ?? [],
      timeZone: watched.site.timeZone,
      burnOpen: burning.has(site),
      standing: standingVerdict(standingOf.get(site) ?? []),
      heard,
      newest,
    };
  };
}

async function optOutsOf(
  { store }: WatchDeps,
  views: readonly (WatchedSite | null)[],
): Promise<ReadonlyMap<string, readonly OptOut[]>> {
  const organisations = new Set(views.flatMap((view) => view?.organisation ?? []));
  const found = [...organisations].map(async (name) => [name, await store.watch.optOuts(name)] as const);
  return new Map(await Promise.all(found));
}
