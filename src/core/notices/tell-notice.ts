// What is to be told of one notice, if anything: the difference between what stands and what people were told.

import type { Verdict } from '#core/rules/finding.ts';
import { isRelief, type Notice, type Transition, type TransitionKind } from './notice.ts';
import type { NoticeSettings } from './notice-settings.ts';
import { rank, worse } from './rank.ts';

interface Wish {
  readonly kind: TransitionKind;
  readonly verdict: Verdict;
}

export interface Telling {
  readonly notice: Notice;
  readonly transition: Transition | null;
}

export interface TellingContext {
  readonly burnOpen: boolean;
  /** A stop of the site stands, and what is less is not told beside it. */
  readonly inhibited: boolean;
  /** Told before in vain: it is told once more. */
  readonly again: boolean;
  readonly settings: NoticeSettings;
}

export function tellNotice(n: Notice, { inhibited, ...context }: TellingContext): Telling {
  const wish = wishOf(n, context);
  if (wish === null) return { notice: n, transition: null };
  const muted = inhibited && wish.verdict !== 'stop';
  // It waits, and is told once the stop is over, if it is still so then.
  if (muted && !isRelief(wish)) return { notice: n, transition: null };
  return tell(n, wish, muted);
}

/** A notice that nobody judges any more: what was told is taken back, and nobody says that it is over. */
export function withdrawNotice(n: Notice, nowMs: number): Telling {
  const ended: Notice = { ...n, standing: null, level: null, trueSinceMs: null, steppedAtMs: nowMs };
  return n.told === null
    ? { notice: quiet(ended), transition: null }
    : tell(ended, { kind: 'corrected', verdict: 'go' }, false);
}

function wishOf(n: Notice, { burnOpen, again, settings }: Omit<TellingContext, 'inhibited'>): Wish | null {
  const { standing, told } = n;
  if (standing === null) return told === null ? null : { kind: 'over', verdict: 'go' };
  const unsteady = n.unsteadyUntilMs !== null && !n.unsteadyTold;
  if (told === null)
    return { kind: unsteady && standing !== 'stop' ? 'unsteady' : 'raised', verdict: standing };
  if (rank(standing) > rank(told)) return { kind: 'worse', verdict: standing };
  if (unsteady) return { kind: 'unsteady', verdict: standing };
  if (rank(standing) < rank(told)) return { kind: 'eased', verdict: standing };
  const unsure = n.phase === 'unsure' && n.steppedAtMs - n.sinceMs >= settings.unsureAfterMs;
  if (unsure && !n.unsureTold && burnOpen) return { kind: 'unsure', verdict: worse(told, 'hold') ?? 'hold' };
  return again ? { kind: 'still', verdict: told } : null;
}

function tell(n: Notice, { kind, verdict }: Wish, inhibited: boolean): Telling {
  const atMs = n.steppedAtMs;
  const number = n.number + 1;
  const raisedAtMs = n.raisedAtMs ?? atMs;
  const transition: Transition = {
    notice: n.key,
    site: n.site,
    episode: n.episode,
    number,
    kind,
    atMs,
    verdict,
    was: n.told,
    raisedAtMs,
    inhibited,
    condition:
      kind === 'unsure' || (kind === 'still' && n.phase === 'unsure')
        ? { ...n.condition, truth: 'unknown' }
        : n.condition,
  };
  const next: Notice = { ...n, number, raisedAtMs };
  if (kind === 'over' || kind === 'corrected') return { notice: quiet(next), transition };
  const answered = isRelief({ kind }) ? {} : { acknowledgedAtMs: null, acknowledgedBy: null };
  return {
    transition,
    notice: {
      ...next,
      ...answered,
      told: kind === 'unsure' ? n.told : verdict,
      unsteadyTold: n.unsteadyTold || n.unsteadyUntilMs !== null,
      unsureTold: n.unsureTold || kind === 'unsure',
    },
  };
}

const quiet = (n: Notice): Notice => ({
  ...n,
  phase: 'quiet',
  sinceMs: n.steppedAtMs,
  standing: null,
  told: null,
  betterSinceMs: null,
  betterWorst: null,
  unsteadyUntilMs: null,
  overAtMs: n.told === null ? n.overAtMs : n.steppedAtMs,
});
