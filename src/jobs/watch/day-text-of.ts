// The message of an evening or dawn text: the same whether it is sent, or shown before it is.

import { type DayTextDue, dayTextMessage } from '#core/notices/day-texts.ts';
import type { Message } from '#core/notices/message.ts';
import type { Plan } from '#core/plan/plan.ts';
import { summariseDays } from '#core/plan/plan-summary.ts';
import type { KeptDayText } from '#store/watch/records.ts';

export type DayTextMessage = Extract<Message, { readonly kind: 'evening' | 'dawn' }>;

/** Null where the plan does not reach the day. `kept`: what was told of late; a dawn text tells what moved since. */
export function dayTextOf(
  due: DayTextDue,
  plan: Plan | null,
  kept: readonly KeptDayText[],
  by: { readonly nowMs: number; readonly hash: (text: string) => string },
): DayTextMessage | null {
  const day = plan && summariseDays(plan).find(({ date }) => date === due.about);
  if (!day) return null;
  const evening =
    due.kind === 'dawn'
      ? (kept.find((text) => text.kind === 'evening' && text.day.date === due.about)?.day ?? null)
      : null;
  const made = dayTextMessage(due, day, evening, by);
  return made.kind === 'evening' || made.kind === 'dawn' ? { ...made, verdict: day.verdict } : null;
}
