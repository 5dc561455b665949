// One look at a site: what is known of it → conditions → notices → at most one message and its first deliveries. Pure but
// for what it reads; what it gives is written by watch-site.ts, in one transaction or not at all.

import type { OpenMessage } from '#core/notices/acknowledge.ts';
import { firstDeliveries } from '#core/notices/first-deliveries.ts';
import { mergeMessage } from '#core/notices/merge-message.ts';
import type { Notice, Transition } from '#core/notices/notice.ts';
import type { Silence } from '#core/notices/silence.ts';
import { type SteppedNotices, stepNotices } from '#core/notices/step-notices.ts';
import { toTellAgain } from '#core/notices/to-tell-again.ts';
import type { Audience } from '#core/notices/who-is-told.ts';
import { windMovedOn } from '#core/notices/wind-moved-on.ts';
import type { Burn } from '#core/watch/burn.ts';
import { isCharging, isOpen } from '#core/watch/burn-plan.ts';
import { burnSubjects } from '#core/watch/burn-subjects.ts';
import type { Condition, ConditionCode } from '#core/watch/condition.ts';
import { judgeWatch } from '#core/watch/judge-watch.ts';
import type { Observation } from '#core/watch/observation.ts';
import type { BriefedPlan, OpenBurn } from '#core/watch/watch-context.ts';
import { lastBriefing } from '#core/watch/wind-briefing.ts';
import type { WatchPatch, WatchState } from '#store/watch/records.ts';
import { stoodBefore } from './stood-before.ts';
import type { WatchDeps, WatchedSite } from './watched-site.ts';
import { watchedWithoutFire } from './watched-without-fire.ts';

/** What conditions are judged by. */
export interface Ground {
  readonly watched: WatchedSite;
  readonly state: WatchState;
  readonly burn: Burn | null;
  /** Open beside it. */
  readonly alsoOpen: readonly OpenBurn[];
  /** Of the last days. */
  readonly covered: readonly Burn[];
  readonly observations: readonly Observation[];
  readonly briefed: BriefedPlan | null;
  readonly litBy: BriefedPlan | null;
  /** Messages of the last day; none are asked for where nothing stands. */
  readonly messages: readonly OpenMessage[];
  readonly nowMs: number;
}

export interface Looked extends Ground {
  readonly silences: readonly Silence[];
  /** Who was told of which episode. */
  readonly heard: ReadonlySet<string>;
}

export interface Seen {
  readonly conditions: readonly Condition[];
  readonly patch: WatchPatch;
}

export function lookAtSite(
  looked: Looked,
  { hash, escalation }: Pick<WatchDeps, 'hash' | 'escalation'>,
): Seen {
  const { watched, state, nowMs, burn } = looked;
  const burnOpen = isOpen(burn);
  const conditions = judgeConditions(looked);
  const told = burnOpen ? conditions : conditions.filter(({ code }) => watchedWithoutFire(code));
  const stepped = quietly(
    stepNotices({
      site: watched.key,
      notices: state.notices,
      conditions: told,
      unlisted: (code) => unlisted(code, burnOpen),
      burnOpen,
      again: burnOpen ? toldOnceMore(looked, told) : new Set(),
      nowMs,
    }),
    {
      burn,
      bySubject: burnsBySubject(looked),
      briefedAtMs: looked.briefed?.toldAtMs ?? Number.NEGATIVE_INFINITY,
    },
  );
  const { notices, transitions } = stepped;
  const message = mergeMessage({ site: watched.key, transitions, notices, burnOpen, nowMs, hash });
  const deliveries = message
    ? firstDeliveries(message, audienceOf(looked, newestOf(notices, message.transitions)), nowMs, escalation)
    : [];
  return {
    conditions,
    patch: {
      site: watched.key,
      replaces: state.version,
      judgedAtMs: nowMs,
      conditions,
      notices: changedNotices(state.notices, notices),
      transitions,
      messages: message ? [message] : [],
      deliveries,
    },
  };
}

/** What was told and died unheard, and what was told of a wind that has gone on since. */
function toldOnceMore(looked: Looked, conditions: readonly Condition[]): ReadonlySet<string> {
  const { watched, state, burn, messages, nowMs } = looked;
  const { notices } = state;
  const audience = audienceOf(looked, newestOf(notices));
  const moved = windMovedOn({
    site: watched.key,
    notices,
    conditions,
    messages,
    rebriefed: lastBriefing(state.briefings, burn),
    atLeastDeg: watched.settings.shift.atLeastDeg,
  });
  return new Set([...toTellAgain({ notices, messages, audience, nowMs }), ...moved]);
}

export const judgeConditions = ({
  watched,
  state,
  burn,
  alsoOpen,
  covered,
  observations,
  briefed,
  litBy,
  nowMs,
}: Ground): Condition[] => {
  // What the crew acknowledged alone: that the office has read of a turn ends nothing at the pit.
  const rebriefed = isOpen(burn) ? lastBriefing(state.briefings, burn) : null;
  return judgeWatch({
    site: watched.site,
    limits: watched.limits,
    settings: watched.settings,
    nowMs,
    plan: watched.plan,
    briefed,
    litBy,
    rebriefed,
    burn,
    alsoOpen,
    covered,
    rebriefedAtMs: rebriefed?.observedAtMs ?? null,
    stations: watched.stations,
    unfound: watched.unfound,
    noneNear: watched.noneNear,
    observations,
    alerts: watched.alerts,
    before: stoodBefore(state, firstOpen(burn, alsoOpen), watched.settings, nowMs),
  });
};

/** What stood counts for as long as the first of them burns. */
const firstOpen = (burn: Burn | null, alsoOpen: readonly OpenBurn[]): Burn | null =>
  alsoOpen.map((one) => one.burn).sort((a, b) => a.openedAtMs - b.openedAtMs)[0] ?? burn;

function burnsBySubject({ burn, alsoOpen, state, watched, nowMs }: Looked): ReadonlyMap<string, Burn> {
  const open = [...(isOpen(burn) ? [burn] : []), ...alsoOpen.map((one) => one.burn)];
  const before = stoodBefore(state, firstOpen(burn, alsoOpen), watched.settings, nowMs);
  const subjects = burnSubjects(open, before);
  return new Map(open.map((one) => [subjects.get(one.id) ?? '', one]));
}

/** What is not watched without a fire is let go of; what is listed in full is over where it is not listed. */
const unlisted = (code: ConditionCode, burnOpen: boolean): 'false' | 'dropped' =>
  burnOpen || watchedWithoutFire(code) ? 'false' : 'dropped';

interface Quiet {
  readonly burn: Burn | null;
  /** Open ones, by the subject of their conditions. */
  readonly bySubject: ReadonlyMap<string, Burn>;
  readonly briefedAtMs: number;
}

/**
 * That the watch ends with the cover is no news to those who covered the pit. Nor is a change of the plan over because the
 * crew was told of it anew: nothing went back to what it was. Nor that no more wood is due to those who have said that they
 * give none. What is not told still comes after what was, and ends its repeats.
 */
const quietly = (
  { notices, transitions }: SteppedNotices,
  { burn, bySubject, briefedAtMs }: Quiet,
): SteppedNotices => ({
  notices,
  transitions: transitions.map((t) => {
    const isCovered = !isOpen(burn) && t.kind === 'corrected';
    const isBriefed = isOfPlan(t.condition.code) && t.kind === 'over' && briefedAtMs >= t.raisedAtMs;
    const own = bySubject.get(t.condition.subject) ?? null;
    const isBurningDown = t.kind === 'over' && isOfCharge(t.condition.code) && !isCharging(own);
    const isOfCovered = own === null && t.kind === 'over' && isOfBurn(t.condition.code);
    return isCovered || isOfCovered || isBriefed || isBurningDown ? { ...t, inhibited: true } : t;
  }),
});

const isOfCharge = (code: ConditionCode): boolean =>
  code === 'last-charge-soon' || code === 'last-charge-due';

const isOfBurn = (code: ConditionCode): boolean =>
  code.startsWith('lit-') || code === 'cover-due' || code === 'not-covered-by-dusk';

const isOfPlan = (code: ConditionCode): boolean => code.startsWith('plan-');

const audienceOf = ({ watched, silences, heard, burn }: Looked, newest: Audience['newest']): Audience => ({
  contacts: watched.contacts,
  silences,
  timeZone: watched.site.timeZone,
  burnOpen: isOpen(burn),
  heard,
  newest,
});

/** The last transition of each notice. */
export function newestOf(
  notices: readonly Notice[],
  transitions: readonly Transition[] = [],
): ReadonlyMap<string, { readonly episode: string; readonly number: number }> {
  const newest = new Map<string, { episode: string; number: number }>();
  for (const { notice, episode, number } of transitions) newest.set(notice, { episode, number });
  for (const { key, episode, number } of notices) newest.set(key, { episode, number });
  return newest;
}

function changedNotices(before: readonly Notice[], now: readonly Notice[]): Notice[] {
  const known = new Set(before);
  return now.filter((notice) => !known.has(notice));
}
