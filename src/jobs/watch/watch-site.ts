// Looks at one site and writes what came of it: taps, observations and answers that came in, what was judged of them, and
// what is to be told, all in one transaction. Where another process wrote meanwhile, it reads and judges anew.

import type { Notice } from '#core/notices/notice.ts';
import { workingDayAt } from '#core/site/working-day.ts';
import { DAY_MS, HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { Burn, BurnTap } from '#core/watch/burn.ts';
import { isOpen } from '#core/watch/burn-plan.ts';
import type { Condition } from '#core/watch/condition.ts';
import { foldTaps } from '#core/watch/fold-taps.ts';
import { ServiceError } from '#errors.ts';
import type {
  KeptObservation,
  MessageThread,
  WatchKept,
  WatchPatch,
  WatchState,
} from '#store/watch/records.ts';
import { briefedPlan } from './briefed-plan.ts';
import { burnMessages } from './burn-messages.ts';
import { withOptOuts } from './contacts-of.ts';
import { freshTaps } from './fresh-taps.ts';
import { type Ground, type Looked, lookAtSite } from './look-at-site.ts';
import type { WatchDeps, WatchedSite } from './watched-site.ts';

/** What came in for a site. */
export interface CameIn {
  readonly taps?: readonly BurnTap[];
  readonly observations?: readonly KeptObservation[];
}

export interface Watched {
  readonly kept: WatchKept;
  readonly burn: Burn | null;
  readonly conditions: readonly Condition[];
}

const TRIES = 8;
/** Notices that have been quiet for so long play no part any more. */
const QUIET_MS = 3 * HOUR_MS;
/** Of each station. */
const MOST_OBSERVATIONS = 4000;
/** A covered pit is looked at again until then. */
const LOOK_AGAIN_MS = 9 * DAY_MS;
const MOST_LOOKED_AT = 50;
const MOST_MESSAGES = 50;
/** Of a fire that burns: more than one of some days brings. */
const MOST_OF_BURN = 500;

/**
 * Throws ServiceError `unknown_site`, `store_unavailable`, `already_there` where a tap has the id of another one, and
 * `changed_meanwhile` where others write without end.
 */
export async function watchSite(deps: WatchDeps, siteKey: string, cameIn: CameIn = {}): Promise<Watched> {
  for (let tries = 1; ; tries += 1) {
    try {
      const result = await lookOnce(deps, siteKey, cameIn);
      if (result.kept.messages.length > 0) deps.wake();
      return result;
    } catch (fault) {
      const isRace = fault instanceof ServiceError && fault.code === 'changed_meanwhile';
      if (!isRace || tries === TRIES) throw fault;
    }
  }
}

/** What a site is judged by now, without writing; null where the site is not known, or not where it is. */
export async function readGround(deps: WatchDeps, siteKey: string): Promise<Ground | null> {
  const watched = deps.view(siteKey);
  if (watched === null) return null;
  const nowMs = deps.nowMs();
  const state = await deps.store.watch.state(siteKey, nowMs - QUIET_MS);
  const { watched: burn, beside, covered } = await burnsWith(deps, siteKey, state, [], watched, nowMs);
  return groundOf(deps, { watched, state, burn, beside, covered, cameIn: {}, nowMs });
}

async function lookOnce(deps: WatchDeps, siteKey: string, given: CameIn): Promise<Watched> {
  const watched = deps.view(siteKey);
  if (watched === null) throw new ServiceError('unknown_site', `no site "${siteKey}" to watch`);
  const { store } = deps;
  const nowMs = deps.nowMs();
  const state = await store.watch.state(siteKey, nowMs - QUIET_MS);
  const taps = await freshOf(deps, siteKey, given.taps ?? []);
  const cameIn = { ...given, taps };
  const burns = await burnsWith(deps, siteKey, state, taps, watched, nowMs);
  const looked = await readRest(deps, {
    watched,
    state,
    burn: burns.watched,
    beside: burns.beside,
    covered: burns.covered,
    cameIn,
    nowMs,
  });
  const { patch, conditions } = lookAtSite(looked, deps);
  const lit = burnMessages(deps, looked, taps, [...burns.changed, ...looked.state.openBurns]);
  const whole: WatchPatch = {
    ...patch,
    taps,
    burns: burns.changed,
    observations: cameIn.observations ?? [],
    messages: [...(patch.messages ?? []), ...lit.messages],
    deliveries: [...(patch.deliveries ?? []), ...lit.deliveries],
  };
  const [kept] = await store.watch.commit([whole]);
  if (kept === undefined) throw new ServiceError('internal', 'the store kept no patch');
  return { kept, burn: burns.watched, conditions };
}

/** Asked after the version was read: a tap that is kept meanwhile is a change of it. */
async function freshOf({ store }: WatchDeps, site: string, taps: readonly BurnTap[]): Promise<BurnTap[]> {
  if (taps.length === 0) return [];
  const ids = taps.map(({ id }) => id);
  return freshTaps(taps, await store.watch.tapsNamed(site, ids));
}

interface Burns {
  readonly watched: Burn | null;
  /** Open too, and opened before it. */
  readonly beside: readonly Burn[];
  readonly covered: readonly Burn[];
  readonly changed: readonly Burn[];
}

/** The burn to be watched, with the taps that came in, and those that they change. */
async function burnsWith(
  { store }: WatchDeps,
  site: string,
  state: WatchState,
  taps: readonly BurnTap[],
  watched: WatchedSite,
  nowMs: number,
): Promise<Burns> {
  const changed: Burn[] = [];
  for (const id of new Set(taps.map(({ burn }) => burn))) {
    const known = await store.watch.burn(site, id);
    const all = [...(known?.taps ?? []), ...taps.filter(({ burn }) => burn === id)];
    const briefed = known?.burn.briefedFromDeg ?? windAtLightUp(watched, all);
    const folded = foldTaps(all, site, briefed);
    if (folded) changed.push(folded);
    // It was none: it has ended, and was not covered either.
    else if (known) changed.push({ ...known.burn, state: 'lit', closedAtMs: nowMs });
  }
  const ids = new Set(changed.map(({ id }) => id));
  const open = [...changed, ...state.openBurns.filter(({ id }) => !ids.has(id))].filter(isOpen);
  const [newest, ...beside] = open.toSorted((a, b) => b.openedAtMs - a.openedAtMs);
  const kept = await store.watch.burns(site, nowMs - LOOK_AGAIN_MS, nowMs + DAY_MS, MOST_LOOKED_AT);
  const covered = [...changed, ...kept.filter(({ id }) => !ids.has(id))].filter((burn) => !isOpen(burn));
  return { watched: newest ?? changed.at(-1) ?? covered[0] ?? null, beside, covered, changed };
}

/** The direction that was forecast for the moment of light-up; null where nobody could say. */
function windAtLightUp({ plan }: WatchedSite, taps: readonly BurnTap[]): number | null {
  const lit = taps.find(({ tap }) => tap === 'lit');
  if (plan === null || lit === undefined) return null;
  const { series } = plan;
  const hour = Math.floor((lit.tappedAtMs - series.startMs) / HOUR_MS);
  const fromDeg = series.columns.windDirection.values[hour];
  return fromDeg === undefined || Number.isNaN(fromDeg) ? null : fromDeg;
}

interface Begun {
  readonly watched: WatchedSite;
  readonly state: WatchState;
  readonly burn: Burn | null;
  readonly beside: readonly Burn[];
  readonly covered: readonly Burn[];
  readonly cameIn: CameIn;
  readonly nowMs: number;
}

/** Notices of which somebody was told. */
const standingOf = ({ notices }: WatchState): Notice[] =>
  notices.filter(({ raisedAtMs }) => raisedAtMs !== null);

async function groundOf(
  deps: WatchDeps,
  { watched, state, burn, beside, covered, cameIn, nowMs }: Begun,
): Promise<Ground> {
  const { store } = deps;
  const { key, site, settings } = watched;
  const today = workingDayAt(site.shifts, nowMs, site.timeZone).date;
  const sinceMs = nowMs - settings.lookBackMin * MINUTE_MS;
  const messages = await threadsOf(deps, { watched, state, burn, nowMs });
  const [kept, told] = await Promise.all([
    store.watch.observations(key, sinceMs, MOST_OBSERVATIONS),
    briefedPlan(deps, watched, { today, burn, answered: messages }),
  ]);
  const alsoOpen = await Promise.all(
    beside.map(async (one) => {
      const { litBy } = await briefedPlan(deps, watched, { today, burn: one, answered: [] });
      return { burn: one, litBy };
    }),
  );
  const observations = [...kept, ...(cameIn.observations ?? [])];
  return { watched, state, burn, alsoOpen, covered, observations, messages, ...told, nowMs };
}

/** While a fire burns all since it was opened: what was answered to them counts however long nothing was told. */
async function threadsOf(
  { store }: WatchDeps,
  { watched: { key }, state, burn, nowMs }: Pick<Begun, 'watched' | 'state' | 'burn' | 'nowMs'>,
): Promise<MessageThread[]> {
  const toMs = nowMs + DAY_MS;
  if (isOpen(burn)) {
    const fromMs = Math.min(nowMs - DAY_MS, burn.openedAtMs);
    return store.watch.threads(key, fromMs, toMs, MOST_OF_BURN);
  }
  return standingOf(state).length === 0 ? [] : store.watch.threads(key, nowMs - DAY_MS, toMs, MOST_MESSAGES);
}

async function readRest(deps: WatchDeps, begun: Begun): Promise<Looked> {
  const { watched, state, nowMs } = begun;
  const { watch } = deps.store;
  const episodes = standingOf(state).map(({ key: notice, episode }) => ({ notice, episode }));
  const [ground, silences, heard, optOuts] = await Promise.all([
    groundOf(deps, begun),
    watch.silences([watched.key], nowMs),
    watch.heard(episodes),
    watch.optOuts(watched.organisation),
  ]);
  const contacts = withOptOuts(watched.contacts, optOuts);
  return { ...ground, watched: { ...watched, contacts }, silences, heard };
}
