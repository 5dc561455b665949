// A silence: for a while nobody is told of one site, or of one thing at it. It has a hard end, a reason and an author,
// and can be ended at any time. What stands goes on standing.

import { HOUR_MS } from '#core/units/time.ts';
import type { ConditionCode } from '#core/watch/condition.ts';
import type { Role } from './contact.ts';
import { isStop, type Notice, type Transition } from './notice.ts';

export interface Silence {
  readonly id: string;
  /** `organisation/id`. */
  readonly site: string;
  /** Null: everything of the site. */
  readonly code: ConditionCode | null;
  readonly fromMs: number;
  /** Half open: at this moment it is over. */
  readonly untilMs: number;
  readonly reason: string;
  readonly by: string;
  /** As whom: only the office silences a stop that was observed, or that of an authority. */
  readonly role: Role;
  readonly endedAtMs: number | null;
  readonly endedBy: string | null;
}

const LONGEST_MS = 4 * HOUR_MS;

export type SilenceFault =
  | 'too-long'
  | 'ends-before-it-begins'
  | 'no-reason'
  | 'no-author'
  | 'matches-nothing';

/** Why it may not be; empty where it may. It must match something that stands now. */
export function silenceFaults(silence: Silence, notices: readonly Notice[]): SilenceFault[] {
  const faults: SilenceFault[] = [];
  const lengthMs = silence.untilMs - silence.fromMs;
  if (!(lengthMs <= LONGEST_MS)) faults.push('too-long');
  if (!(lengthMs > 0)) faults.push('ends-before-it-begins');
  if (silence.reason.trim() === '') faults.push('no-reason');
  if (silence.by.trim() === '') faults.push('no-author');
  const matches = (n: Notice): boolean =>
    n.site === silence.site &&
    n.phase !== 'quiet' &&
    (silence.code === null || n.condition.code === silence.code);
  if (!notices.some(matches)) faults.push('matches-nothing');
  return faults;
}

/** A moment before its beginning, which a clock that was set back brings, is outside too: an old silence never returns. */
export const isInForce = ({ fromMs, untilMs, endedAtMs }: Silence, nowMs: number): boolean =>
  endedAtMs === null && nowMs >= fromMs && nowMs < Math.min(untilMs, fromMs + LONGEST_MS);

export function isSilenced(transition: Transition, silences: readonly Silence[], nowMs: number): boolean {
  const { condition } = transition;
  const forOffice =
    isStop(transition) && (condition.basis === 'observed' || condition.code === 'authority-stop');
  return silences.some(
    (s) =>
      s.site === transition.site &&
      (s.code === null || s.code === condition.code) &&
      isInForce(s, nowMs) &&
      (s.role === 'office' || !forOffice),
  );
}
