// What changed at one site at one evaluation, as one message: the worst first, and at most one.

import { worseOf } from '#core/rules/finding.ts';
import { DAY_MS, HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { ConditionBasis } from '#core/watch/condition.ts';
import type { Message } from './message.ts';
import { isRelief, type Notice, type Transition, type TransitionKind } from './notice.ts';
import { rank } from './rank.ts';
import { standingVerdict } from './standing-verdict.ts';

export interface MergeInput {
  readonly site: string;
  readonly transitions: readonly Transition[];
  /** After them: no message demands less than what stands. */
  readonly notices: readonly Notice[];
  readonly burnOpen: boolean;
  readonly nowMs: number;
  /** Text to a short text that is the same for the same and differs otherwise. */
  readonly hash: (text: string) => string;
}

/** An answer is waited for at least so long, whatever the condition itself is good for. */
const ANSWER_WITHIN_MS = HOUR_MS;
/** That something is over is of use for so long. */
const RELIEF_MS = 30 * MINUTE_MS;

/** Null where there is nothing to tell. */
export function mergeMessage({
  site,
  transitions,
  notices,
  burnOpen,
  nowMs,
  hash,
}: MergeInput): Message | null {
  const told = transitions.filter((t) => !t.inhibited).sort(worstFirst);
  if (told.length === 0) return null;
  const demands = told.filter((t) => !isRelief(t));
  const needsAnswer = burnOpen && demands.some((t) => t.verdict !== 'go');
  const said = told.map((t) => [t.notice, t.episode, t.number, t.kind]);
  const longestMs = Math.max(...told.map((t) => validOf(t, nowMs)));
  return {
    id: hash(JSON.stringify(['notice', site, said])),
    kind: 'notice',
    site,
    atMs: nowMs,
    verdict: demands.map((t) => t.verdict).reduce(worseOf, standingVerdict(notices)),
    transitions: told,
    validUntilMs: needsAnswer ? Math.max(longestMs, nowMs + ANSWER_WITHIN_MS) : longestMs,
    needsAnswer,
  };
}

/** A validity that is no moment of the next day counts as an hour. */
function validOf(t: Transition, nowMs: number): number {
  if (isRelief(t)) return nowMs + RELIEF_MS;
  const { validUntilMs } = t.condition;
  return validUntilMs >= nowMs && validUntilMs <= nowMs + DAY_MS ? validUntilMs : nowMs + HOUR_MS;
}

const KINDS: readonly TransitionKind[] = [
  'raised',
  'worse',
  'unsteady',
  'unsure',
  'still',
  'eased',
  'corrected',
  'over',
];
const BASES: readonly ConditionBasis[] = ['observed', 'order', 'record', 'forecast'];

function worstFirst(a: Transition, b: Transition): number {
  return (
    Number(isRelief(a)) - Number(isRelief(b)) ||
    rank(b.verdict) - rank(a.verdict) ||
    Number(b.condition.code === 'authority-stop') - Number(a.condition.code === 'authority-stop') ||
    KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind) ||
    BASES.indexOf(a.condition.basis) - BASES.indexOf(b.condition.basis) ||
    Number(b.condition.code === 'plan-verdict') - Number(a.condition.code === 'plan-verdict') ||
    (a.notice < b.notice ? -1 : 1)
  );
}
