// An evening or dawn text as the plan is at the moment of sending: who slept meanwhile must not be told a go that is no more.

import type { Message } from '#core/notices/message.ts';
import { diffPlans } from '#core/plan/diff-plans.ts';
import { type DaySummary, summariseDays } from '#core/plan/plan-summary.ts';
import { addDays } from '#core/units/local-time.ts';
import { messageOf } from '#errors.ts';
import type { KeptDayText } from '#store/watch/records.ts';
import { dayTextOf } from './day-text-of.ts';
import type { SendDeps } from './send-deps.ts';

type Deps = Pick<SendDeps, 'store' | 'view' | 'nowMs' | 'hash' | 'log'>;

/** Any other message as it is. Null: a go that no plan bears out at this moment, which must wait. */
export async function dayTextNow(deps: Deps, message: Message): Promise<Message | null> {
  if (message.kind !== 'evening' && message.kind !== 'dawn') return message;
  const { kind, site, validUntilMs } = message;
  const { date: about, day: told } = message.day;
  const plan = deps.view(site)?.plan ?? null;
  const day = plan && summariseDays(plan).find(({ date }) => date === about);
  if (!day) return message.verdict === 'go' ? null : message;
  const nowMs = deps.nowMs();
  if (!isWorse(told, day, nowMs)) return message;
  const date = kind === 'evening' ? addDays(about, -1) : about;
  const due = { site, kind, date, about, dueAtMs: message.atMs, validUntilMs };
  return dayTextOf(due, plan, await keptOf(deps, message), { nowMs, hash: deps.hash });
}

/** Only what makes it worse: what is better has a notice of its own, and is compared with the text as it is kept. */
const isWorse = (told: DaySummary, day: DaySummary, nowMs: number): boolean =>
  diffPlans([told], [day], nowMs).some(
    ({ kind, tendency }) => (kind === 'verdict' || kind === 'time') && tendency === 'worse',
  );

/** Where the store does not answer, the text says the day as it is, and nothing of what it was. */
async function keptOf(
  { store, log }: Deps,
  { site, day }: Extract<Message, { readonly kind: 'evening' | 'dawn' }>,
): Promise<readonly KeptDayText[]> {
  try {
    return await store.watch.dayTexts(site, addDays(day.date, -2));
  } catch (fault) {
    log.warn({ message: messageOf(fault) }, 'the evening text could not be read again');
    return [];
  }
}
