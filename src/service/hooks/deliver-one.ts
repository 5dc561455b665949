// Sends one subscription what it is due, event after event, for as long as the receiver takes it. Each try is kept before
// the next: whoever takes over begins where it was left, and sends at most the last one again, under the same id.

import type { LoggedEvent } from '#core/events/event.ts';
import { afterTry, type HookStanding, leaveOutDead, withDropped } from '#core/events/hook-step.ts';
import { endedEvent } from '#core/events/subscription-event.ts';
import type { EventDesk, EventsSeen } from '#publish/event-desk.ts';
import type { ApiKey } from '#store/api-key.ts';
import type { HookRecords, KeptHook, NewAttempt } from '#store/hooks/records.ts';
import { type EventContents, eventContent, type HookContent, missedContent } from './hook-message.ts';
import { ownerOf, reachOf } from './hook-reach.ts';
import type { HookSender } from './send-hook.ts';

export interface DeliverDeps extends EventContents {
  readonly hooks: HookRecords;
  readonly events: EventDesk;
  keys(): readonly ApiKey[];
  readonly sender: HookSender;
  readonly worker: string;
  readonly nowMs: () => number;
  /** In [0, 1). */
  random(): number;
}

/** No wait is longer: one that lies further ahead was set by a clock that was wrong. */
export const LONGEST_WAIT_MS = 15 * 60_000;
const AT_ONCE = 100;
/** Passed by without anything to send: kept, so that it is not looked through again. */
const WORTH_KEEPING = 100;

/** How far the log was looked through for a subscription as it is written now. */
export interface Looked {
  readonly turn: number;
  readonly upTo: number;
}

/** Why it stopped: `waits`: until `hook.standing.nextAtMs`. `lost`: somebody changed it, or has it now. */
export interface Delivered {
  readonly why: 'none-left' | 'waits' | 'idle' | 'lost' | 'called-off';
  readonly looked: Looked;
  readonly nextAtMs: number;
}

export const isDue = ({ nextAtMs }: Pick<HookStanding, 'nextAtMs'>, nowMs: number): boolean =>
  nextAtMs <= nowMs || nextAtMs > nowMs + LONGEST_WAIT_MS;

/** `claimed` is this worker's. */
export async function deliverOne(
  deps: DeliverDeps,
  claimed: KeptHook,
  before: Looked | null,
  signal: AbortSignal,
): Promise<Delivered> {
  const { turn } = claimed;
  const from = before?.turn === turn ? before.upTo : 0;
  let at: At = { hook: claimed, upTo: Math.max(from, claimed.standing.position), read: null };
  for (;;) {
    const step = signal.aborted ? 'called-off' : await oneStep(deps, at, turn, signal);
    if (typeof step === 'string')
      return { why: step, looked: { turn, upTo: at.upTo }, nextAtMs: at.hook.standing.nextAtMs };
    at = step;
  }
}

interface At {
  readonly hook: KeptHook;
  /** Everything up to it was looked at. */
  readonly upTo: number;
  /** What was read after it already, while each of it is taken. */
  readonly read: EventsSeen | null;
}

async function oneStep(
  deps: DeliverDeps,
  at: At,
  turn: number,
  signal: AbortSignal,
): Promise<At | Delivered['why']> {
  const nowMs = deps.nowMs();
  const { subscription, standing } = at.hook;
  const keep = async (now: HookStanding, attempt: NewAttempt | null = null): Promise<At | 'lost'> => {
    const event = endedEvent({ ...subscription, ...subscription.body }, now);
    const by = { worker: deps.worker, turn };
    const hook = await deps.hooks.settle(subscription.id, by, now, attempt, event);
    return hook === null ? 'lost' : { hook, upTo: Math.max(at.upTo, hook.standing.position), read: null };
  };
  if (standing.ended !== null) return 'idle';
  const owner = ownerOf(subscription, deps.keys(), nowMs);
  if (owner === null) return keep({ ...standing, ended: { why: 'key', atMs: nowMs } });
  if (!subscription.body.active) return 'idle';
  if (!isDue(standing, nowMs)) return 'waits';
  const reach = reachOf(owner, subscription.body, deps.desk);
  const asked = { after: at.upTo, most: AT_ONCE, siteKey: null, kinds: subscription.body.types };
  const seen = at.read ?? (await deps.events.after(reach, asked));
  if (seen.missingUpTo !== null) return keep(withDropped(standing, seen.missingUpTo));
  const left = leaveOutDead(standing, seen.events, nowMs);
  if (left !== standing) return keep(left);
  const next = nextOf(deps, at.hook, seen.events, reach, nowMs);
  if (next === null) return passBy(at, seen, keep);
  const tried = await deps.sender.send(subscription, next.content, signal);
  if (tried === null) return 'called-off';
  const moved = await keep(
    afterTry(standing, next.head, tried.answer, deps.nowMs(), deps.random()),
    tried.attempt,
  );
  const goesOn = moved !== 'lost' && next.head !== 'missed' && tried.answer.outcome === 'taken';
  return goesOn && seen.events.length > 1
    ? { ...moved, read: { ...seen, events: seen.events.slice(1) } }
    : moved;
}

/** None of those looked at is for it. */
async function passBy(
  { hook, upTo: before }: At,
  { next, more }: Pick<EventsSeen, 'next' | 'more'>,
  keep: (standing: HookStanding) => Promise<At | 'lost'>,
): Promise<At | Delivered['why']> {
  const upTo = Math.max(before, next);
  if (upTo - hook.standing.position > WORTH_KEEPING) return keep({ ...hook.standing, position: upTo });
  return more || upTo > before ? { hook, upTo, read: null } : 'none-left';
}

interface Next {
  readonly head: LoggedEvent | 'missed';
  readonly content: HookContent;
}

/** Word of what was missed goes before what comes after it. */
function nextOf(
  deps: DeliverDeps,
  { standing: { missed } }: KeptHook,
  events: readonly LoggedEvent[],
  reach: Parameters<typeof eventContent>[1],
  nowMs: number,
): Next | null {
  if (missed !== null) return { head: 'missed', content: missedContent(missed, nowMs) };
  const head = events[0];
  return head === undefined ? null : { head, content: eventContent(deps, reach, head) };
}
