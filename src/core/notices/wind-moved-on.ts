// Which notices are to be told once more because the wind went on from the direction that they told, after somebody had
// acknowledged them: what stands did not change, but who answered knows of another wind.

import { angleBetweenDeg } from '#core/units/direction.ts';
import type { Condition } from '#core/watch/condition.ts';
import type { WindBriefing } from '#core/watch/wind-briefing.ts';
import type { OpenMessage } from './acknowledge.ts';
import { type Notice, noticeKey, type Transition } from './notice.ts';
import { OF_WIND } from './of-wind.ts';

export interface WindMovedInput {
  readonly site: string;
  readonly notices: readonly Notice[];
  /** As judged now. */
  readonly conditions: readonly Condition[];
  /** Messages of the last day. */
  readonly messages: readonly OpenMessage[];
  /** The wind that the crew acknowledged last: what goes on from there is told as a drift, beside no stop. */
  readonly rebriefed: WindBriefing | null;
  /** From how far on [°]. */
  readonly atLeastDeg: number;
}

const DUST_DEG = 1e-6;

/** Their keys. */
export function windMovedOn(input: WindMovedInput): ReadonlySet<string> {
  const now = new Map(input.conditions.map((c) => [noticeKey(input.site, c), c]));
  const moved = input.notices.filter((n) => n.acknowledgedAtMs !== null && isMoved(n, now.get(n.key), input));
  return new Set(moved.map(({ key }) => key));
}

function isMoved(n: Notice, now: Condition | undefined, input: WindMovedInput): boolean {
  if (now?.truth !== 'true' || !OF_WIND.has(now.code) || now.figures.windFromDeg === null) return false;
  const last = lastTold(n, input.messages);
  const toldDeg = last?.told.condition.figures.windFromDeg ?? null;
  if (last === null || toldDeg === null) return false;
  const isDrift = n.told !== 'stop' && input.rebriefed?.message === last.message;
  return !isDrift && angleBetweenDeg(now.figures.windFromDeg, toldDeg) >= input.atLeastDeg - DUST_DEG;
}

function lastTold(
  { key, episode, number }: Notice,
  messages: readonly OpenMessage[],
): { readonly told: Transition; readonly message: string } | null {
  for (const { message } of messages) {
    const told = message.transitions.find(
      (t) => t.notice === key && t.episode === episode && t.number === number,
    );
    if (told) return { told, message: message.id };
  }
  return null;
}
