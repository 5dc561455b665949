// Makes a condition from what is special of it.

import type { Verdict } from '#core/rules/finding.ts';
import type { Condition, ConditionBasis, ConditionCode, ConditionFigures, Truth } from './condition.ts';
import { NO_FIGURES } from './condition.ts';

export interface ConditionText {
  readonly subject?: string;
  readonly truth: Truth;
  readonly verdict: Verdict;
  readonly basis: ConditionBasis;
  readonly asOfMs: number | null;
  readonly validUntilMs: number;
  readonly holdsForMs?: number;
  readonly clearsForMs?: number;
  readonly figures?: Partial<ConditionFigures>;
}

export const makeCondition = (code: ConditionCode, text: ConditionText): Condition => ({
  code,
  subject: text.subject ?? '',
  truth: text.truth,
  verdict: text.verdict,
  basis: text.basis,
  asOfMs: text.asOfMs,
  holdsForMs: text.holdsForMs ?? 0,
  clearsForMs: text.clearsForMs ?? 0,
  validUntilMs: text.validUntilMs,
  figures: { ...NO_FIGURES, ...text.figures },
});

/** Null where nobody can say. */
export function truthOf(isTrue: boolean | null): Truth {
  if (isTrue === null) return 'unknown';
  return isTrue ? 'true' : 'false';
}

/** What tells conditions apart, over evaluations too. */
export const conditionKey = ({ code, subject }: Condition): string => `${code} ${subject}`;
