// What was raised is over only by evidence newer than that which raised it: an observation that goes missing proves nothing.

import { worseOf } from '#core/rules/finding.ts';
import type { Condition } from './condition.ts';
import { conditionKey } from './make-condition.ts';

/**
 * `now` held against the conditions of the evaluation before. What is no longer asked at all (a limit, a place, a station or a
 * burn that is no more) is false, so that nothing stays raised for ever.
 */
export function keepRaised(before: readonly Condition[], now: readonly Condition[]): Condition[] {
  const was = new Map(before.map((c) => [conditionKey(c), c]));
  const kept = now.map((c) => {
    const known = was.get(conditionKey(c));
    return known === undefined || known.truth === 'false' || c.basis !== 'observed' ? c : held(known, c);
  });
  const asked = new Set(now.map(conditionKey));
  const ended = before.filter((c) => !asked.has(conditionKey(c)) && c.truth !== 'false');
  return [...kept, ...ended.map((c) => ({ ...c, truth: 'false' as const }))];
}

function held(was: Condition, is: Condition): Condition {
  const isNewer = (is.asOfMs ?? Number.NEGATIVE_INFINITY) > (was.asOfMs ?? Number.NEGATIVE_INFINITY);
  if (is.truth === 'true' || (is.truth === 'false' && isNewer)) return is;
  // It keeps what it was raised with, and the moment of which it was last known.
  return {
    ...is,
    truth: 'unknown',
    verdict: worseOf(was.verdict, is.verdict),
    asOfMs: isNewer ? is.asOfMs : was.asOfMs,
    figures: was.figures,
  };
}
