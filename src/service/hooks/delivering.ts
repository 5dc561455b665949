// Sends every subscription what it is due: all of them at once, each in its own order, so that a receiver that hangs holds
// up nobody else. Over all processes one has a subscription at a time.

import { messageOf } from '#errors.ts';
import { inTurn } from '#memory/in-turn.ts';
import type { SourceLog } from '#sources/source.ts';
import type { KeptHook } from '#store/hooks/records.ts';
import { type DeliverDeps, deliverOne, isDue, type Looked } from './deliver-one.ts';
import { isOwnerGone } from './hook-reach.ts';
import { createHookWake } from './hook-wake.ts';

export interface DeliveringDeps extends DeliverDeps {
  readonly log: SourceLog;
}

export interface Delivering {
  /** Begins what is due. Cheap where nothing is new. */
  begin(): Promise<void>;
  /** The same, until nothing more is due, nor under way. */
  all(): Promise<void>;
  /** Resolves when nothing is under way; begins nothing. */
  ended(): Promise<void>;
}

/** Longer than a try with all that is kept of it. */
export const DEAD_AFTER_MS = 60_000;
/** What another process has is looked at again so soon: that may have died. */
const LOOK_AGAIN_MS = 5000;

export function createDelivering(deps: DeliveringDeps, signal: AbortSignal): Delivering {
  const { hooks, nowMs, log, worker } = deps;
  const underWay = new Map<string, Promise<void>>();
  const looked = new Map<string, Looked>();
  const wake = createHookWake(nowMs);
  const work = async (hook: KeptHook): Promise<void> => {
    const { id } = hook.subscription;
    try {
      const done = await deliverOne(deps, hook, looked.get(id) ?? null, signal);
      looked.set(id, done.looked);
      if (done.why === 'waits') wake.at(done.nextAtMs);
      if (done.why === 'lost') wake.at(nowMs());
    } finally {
      await hooks.release(id, worker);
    }
  };
  const start = (hook: KeptHook): void => {
    const { id } = hook.subscription;
    const one = work(hook)
      .catch((fault: unknown) => {
        wake.at(nowMs() + LOOK_AGAIN_MS);
        if (!signal.aborted)
          log.warn({ message: messageOf(fault), subscription: id }, 'a webhook was not sent');
      })
      .finally(() => {
        underWay.delete(id);
        // Something came while it was at work, and was passed over because it was.
        if ((looked.get(id)?.upTo ?? wake.last()) < wake.last()) wake.at(nowMs());
      });
    underWay.set(id, one);
  };
  const isToStart = (hook: KeptHook, last: number): boolean => {
    const { subscription, standing } = hook;
    const { id } = subscription;
    if (standing.ended !== null || underWay.has(id)) return false;
    if (isOwnerGone(subscription, deps.keys(), nowMs())) return true;
    if (isIdle(hook, looked.get(id), last)) return false;
    if (isDue(standing, nowMs())) return true;
    wake.at(standing.nextAtMs);
    return false;
  };
  const claim = async (ids: readonly string[]): Promise<void> => {
    if (ids.length === 0) return;
    try {
      const ours = await hooks.claim(ids, worker, DEAD_AFTER_MS);
      // Another has the rest, and may die with it.
      if (ours.length < ids.length) wake.at(nowMs() + LOOK_AGAIN_MS);
      for (const hook of ours) start(hook);
    } catch (fault) {
      wake.at(nowMs() + LOOK_AGAIN_MS);
      throw fault;
    }
  };
  const begin = inTurn(async () => {
    if (signal.aborted) return;
    const marks = await hooks.marks();
    if (wake.isQuiet(marks)) return;
    const all = await hooks.all();
    wake.lookedAt(marks);
    const due = all.filter((hook) => isToStart(hook, marks.last));
    await claim(due.map(({ subscription }) => subscription.id));
    const there = new Set(all.map(({ subscription }) => subscription.id));
    for (const id of looked.keys()) if (!there.has(id)) looked.delete(id);
  });
  const ended = async (): Promise<void> => {
    while (underWay.size > 0) await Promise.all(underWay.values());
  };
  return {
    begin,
    async all() {
      await begin();
      while (underWay.size > 0) {
        await Promise.all(underWay.values());
        await begin();
      }
    },
    ended,
  };
}

/** Nothing to do, as far as is known without asking. */
function isIdle(
  { subscription, standing, turn }: KeptHook,
  before: Looked | undefined,
  last: number,
): boolean {
  if (!subscription.body.active) return true;
  const upTo = before?.turn === turn ? Math.max(before.upTo, standing.position) : standing.position;
  return standing.missed === null && upTo >= last;
}
