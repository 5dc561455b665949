// The log of events and what stands → messages, kept before anybody reads them. Whoever comes second of several processes
// finds that the other wrote, and goes on from there.

import { hash } from 'node:crypto';
import { burnSays } from '#core/cap/burn-says.ts';
import { ownCapFaults } from '#core/cap/cap-rules.ts';
import { type CapSeverities, noticeSays, untilMs } from '#core/cap/notice-says.ts';
import { type CapSays, type ChainStep, stepChain } from '#core/cap/step-chain.ts';
import type { EventKind, LoggedEvent } from '#core/events/event.ts';
import type { Notice, Transition } from '#core/notices/notice.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { foldTaps } from '#core/watch/fold-taps.ts';
import { capXml } from '#publish/cap/cap-xml.ts';
import { type CapTold, makeAlert } from '#publish/cap/make-alert.ts';
import type { CapHead, CapMessage } from '#store/cap-records.ts';
import type { CapDeps } from './cap-deps.ts';
import { createCapScene } from './cap-scene.ts';

const KINDS: readonly EventKind[] = [
  'burn-lit',
  'burn-charging',
  'burn-burning-down',
  'burn-covered',
  'burn-put-out-early',
  'burn-corrected',
  'notice-raised',
  'notice-updated',
  'notice-ended',
];

const EVENTS_AT_ONCE = 200;
/** What stands is told again so long before its message expires: a reader that asks every few minutes sees no hole. */
const RENEW_BEFORE_MS = 15 * MINUTE_MS;
/** What happened before that, and stands no more, is no news. */
const NEWS_FOR_MS = 48 * HOUR_MS;

/** Something to be told of one chain. */
interface Wish {
  readonly chain: string;
  readonly site: string;
  readonly atMs: number;
  readonly says: CapSays;
  readonly told: CapTold;
}

/** Publishes all that is to be told of an organisation by now. */
export function createCapPublisher(deps: CapDeps): (organisation: string) => Promise<void> {
  const turn = publishOnce(deps);
  return async (organisation) => {
    for (let more = true; more; ) more = await turn(organisation);
  };
}

function publishOnce(deps: CapDeps): (organisation: string) => Promise<boolean> {
  const { store, nowMs } = deps;
  return async (organisation) => {
    const feed = await store.cap.feed(organisation);
    const after = feed?.position ?? 0;
    const { last } = await store.events.ends();
    const events =
      last <= after
        ? []
        : await store.events.after({ after, upTo: last, most: EVENTS_AT_ONCE, organisation, kinds: KINDS });
    const more = events.length === EVENTS_AT_ONCE;
    const position = more ? (events.at(-1)?.position ?? last) : Math.max(last, after);
    const open = await store.cap.open(organisation);
    const standing = await standingOf(deps, organisation);
    const wishes = await wishesOf(deps, events, standing);
    const renewals = more ? [] : renewalsOf(open, standing, wishes, nowMs(), deps.severities);
    const messages = await messagesOf(deps, organisation, [...wishes, ...renewals], open);
    if (messages.length === 0 && position === after) return false;
    const isOurs = await store.cap.add(organisation, position, feed, messages);
    return more || !isOurs;
  };
}

interface Standing {
  readonly notices: ReadonlyMap<string, Notice>;
  readonly burns: ReadonlySet<string>;
}

const noticeChain = ({ notice, episode }: Pick<Transition, 'notice' | 'episode'>): string =>
  `notice ${notice} ${episode}`;
const burnChain = (site: string, id: string): string => `burn ${site} ${id}`;

async function standingOf({ store, sitesOf }: CapDeps, organisation: string): Promise<Standing> {
  const sites = sitesOf(organisation);
  const notices = sites.length === 0 ? [] : await store.watch.standing(sites);
  const burns = sites.length === 0 ? [] : await store.watch.openBurns(sites);
  return {
    notices: new Map(notices.map((n) => [noticeChain({ notice: n.key, episode: n.episode }), n])),
    burns: new Set(burns.map((b) => burnChain(b.site, b.id))),
  };
}

async function wishesOf(deps: CapDeps, events: readonly LoggedEvent[], standing: Standing): Promise<Wish[]> {
  const oldestMs = deps.nowMs() - NEWS_FOR_MS;
  const wishes: Wish[] = [];
  for (const event of events) {
    const wish = event.kind.startsWith('burn-') ? await burnWish(deps, event) : noticeWish(deps, event);
    if (wish === null) continue;
    const stands = standing.notices.has(wish.chain) || standing.burns.has(wish.chain);
    // An end is told whatever its age: it follows only upon what was published.
    if (event.atMs >= oldestMs || stands || wish.says.kind !== 'stands') wishes.push(wish);
  }
  return wishes;
}

function noticeWish({ severities }: CapDeps, { data, atMs }: LoggedEvent): Wish | null {
  const transition = data as Transition;
  const says = noticeSays(transition, severities);
  // What is not told beside a stop is told when that is over.
  if (transition.inhibited && says.kind === 'stands') return null;
  const told: CapTold = { kind: 'notice', transition };
  return { chain: noticeChain(transition), site: transition.site, atMs, says, told };
}

async function burnWish({ store, burns }: CapDeps, event: LoggedEvent): Promise<Wish | null> {
  const { site, subject, atMs } = event;
  if (!burns || site === null) return null;
  const kept = await store.watch.burn(site, subject);
  const taps = (kept?.taps ?? []).filter(({ receivedAtMs }) => receivedAtMs <= atMs);
  const burn = foldTaps(taps, site, kept?.burn.briefedFromDeg ?? null);
  const told: CapTold = { kind: 'burn', burn, id: subject };
  return { chain: burnChain(site, subject), site, atMs, says: burnSays(burn, atMs), told };
}

function renewalsOf(
  open: readonly CapHead[],
  { notices, burns }: Standing,
  wishes: readonly Wish[],
  nowMs: number,
  severities: CapSeverities,
): Wish[] {
  const fresh = new Set(wishes.map(({ chain }) => chain));
  return open.flatMap((head): Wish[] => {
    const { chain, site } = head;
    if (fresh.has(chain) || head.expiresMs - nowMs > RENEW_BEFORE_MS) return [];
    const told = head.told as CapTold;
    const wish = { chain, site, atMs: nowMs };
    if (told.kind === 'burn')
      return burns.has(chain) ? [{ ...wish, told, says: burnSays(told.burn, nowMs) }] : [];
    const notice = notices.get(chain);
    if (notice === undefined) return [];
    // The figures of the last time that it could be judged, with what people were told.
    const kind = told.transition.kind === 'unsure' ? 'unsure' : 'still';
    const { condition } = kind === 'unsure' ? told.transition : notice;
    const transition = { ...told.transition, kind, condition, atMs: nowMs } as const;
    const says = noticeSays(transition, severities);
    const lasts = says.kind === 'stands' ? { ...says, untilMs: untilMs(condition, nowMs) } : says;
    return [{ ...wish, told: { kind: 'notice', transition }, says: lasts }];
  });
}

async function messagesOf(
  deps: CapDeps,
  organisation: string,
  wishes: readonly Wish[],
  open: readonly CapHead[],
): Promise<CapMessage[]> {
  if (wishes.length === 0) return [];
  const kept = await deps.store.cap.chains(
    organisation,
    wishes.map(({ chain }) => chain),
  );
  const chains = Map.groupBy(kept, ({ chain }) => chain);
  const stands = new Map(open.map(({ chain, site }) => [chain, site]));
  const scene = createCapScene(deps, organisation, Math.min(...wishes.map(({ atMs }) => atMs)));
  const messages: CapMessage[] = [];
  for (const wish of wishes) {
    const { chain, site, says, atMs } = wish;
    const earlier = chains.get(chain) ?? [];
    const step = stepChain(earlier, says, atMs);
    if (step === null) continue;
    if (step.ends) stands.delete(chain);
    else stands.set(chain, site);
    const othersStand = [...stands].some(([other, where]) => other !== chain && where === site);
    const message = await messageOf(deps, scene, { organisation, wish, step, earlier, othersStand });
    if (message === null) continue;
    chains.set(chain, [...earlier, message]);
    messages.push(message);
  }
  return messages;
}

interface OneMessage {
  readonly organisation: string;
  readonly wish: Wish;
  readonly step: ChainStep;
  readonly earlier: readonly CapHead[];
  readonly othersStand: boolean;
}

async function messageOf(
  { from, units, say, log }: CapDeps,
  scene: ReturnType<typeof createCapScene>,
  { organisation, wish, step, earlier, othersStand }: OneMessage,
): Promise<CapMessage | null> {
  const { chain, site, told } = wish;
  const number = (earlier.at(-1)?.number ?? 0) + 1;
  // Made of what it is of: the same again has the same, another has another.
  const digest = hash('sha256', JSON.stringify([chain, number, step.sentMs]), 'hex').slice(0, 24);
  const identifier = `pitward.${organisation}.${digest}`;
  const { smoke, incidents } = await scene.at(wish);
  const alert = makeAlert({
    ...{ identifier, from: from(organisation), step, told, site: scene.site(site), smoke, incidents },
    ...{ othersStand, units, say },
  });
  const faults = ownCapFaults(alert);
  if (faults.length > 0) {
    // A message that receivers could take for another is worse than none; what it is of stands in the log of events.
    log.warn({ message: faults.join('; ') }, `no CAP message of ${chain}`);
    return null;
  }
  const [info] = alert.infos;
  return {
    ...{ organisation, site, chain, number, identifier, sender: alert.sender, sent: alert.sent },
    ...{ sentMs: step.sentMs, expiresMs: step.expiresMs, ends: step.ends, told },
    headline: info?.headline ?? '',
    summary: JSON.stringify({ msgType: step.msgType, text: info?.description ?? '' }),
    body: capXml(alert),
  };
}
