// Which deliveries of a message are due now. The first step at once; the same people again until somebody answers; the
// next step when the deadline has passed, and at once where nobody of a step can be reached, or one says that it cannot
// be done. An answer ends this, never the notice itself. Pure: whoever makes it again makes the same deliveries.

import { MINUTE_MS } from '#core/units/time.ts';
import type { Answer } from './answer.ts';
import type { Delivery } from './delivery.ts';
import { elapsedMs } from './elapsed.ts';
import { isAnswered, lastAnswers } from './last-answers.ts';
import { isMadeUp, isUnreached } from './make-up.ts';
import type { Message } from './message.ts';
import { nextDelivery } from './next-delivery.ts';
import { type Audience, isNewest, type Told, whoIsTold } from './who-is-told.ts';

export interface EscalationSettings {
  /** Told again so long after the first telling of the step. */
  readonly repeatAfterMs: readonly number[];
  /** How long each step has to answer; the last figure is for all steps after it. */
  readonly deadlinesMs: readonly number[];
  /** At most so many deliveries of one message to one person in one step, and to all together. */
  readonly mostPerContact: number;
  readonly mostPerMessage: number;
}

/** Ours: no source. */
export const ESCALATION_SETTINGS: EscalationSettings = {
  repeatAfterMs: [5 * MINUTE_MS, 10 * MINUTE_MS, 15 * MINUTE_MS],
  deadlinesMs: [10 * MINUTE_MS],
  mostPerContact: 8,
  mostPerMessage: 100,
};

export interface EscalationInput {
  readonly message: Message;
  /** All of this message so far, and of no other. */
  readonly deliveries: readonly Delivery[];
  /** Answers to it that count. */
  readonly answers: readonly Answer[];
  readonly audience: Audience;
  readonly nowMs: number;
  readonly settings?: EscalationSettings;
}

/**
 * unanswered: every step has been asked in vain; somebody must look. Superseded and expired are the end; until then it is
 * to be looked at again, since an answer may come, or be taken back.
 */
export type EscalationState = 'going-on' | 'unanswered' | 'acknowledged' | 'superseded' | 'expired';

export interface Escalation {
  readonly state: EscalationState;
  /** To be kept, and then sent; some are settled already, where a person cannot be told at all. */
  readonly due: readonly Delivery[];
  /** Somebody is still to be told of it when their quiet hours, or a silence, are over. */
  readonly waits: boolean;
}

export function escalate({ settings = ESCALATION_SETTINGS, ...input }: EscalationInput): Escalation {
  const { message, audience, nowMs } = input;
  const answers = lastAnswers(input.answers);
  const ended = endOf({ ...input, answers });
  if (ended !== null) return { state: ended, due: [], waits: false };
  const { told, not } = whoIsTold(message, audience, nowMs);
  const isTold = (id: string): boolean => input.deliveries.some(({ contact }) => contact === id);
  const isAsleep = not.some(({ contact, why }) => why === 'quiet' && !isTold(contact.id));
  // Whom a silence alone keeps from being asked has not failed to answer.
  const isSilent = told.every(({ asked }) => !asked) && not.some(({ why }) => why === 'silenced');
  const due: Delivery[] = [];
  const room = (): boolean => input.deliveries.length + due.length < settings.mostPerMessage;
  const tell = (who: readonly Told[]): void => {
    for (const one of who) {
      const next = nextDelivery({ ...input, told: one, settings });
      if (next !== null && room()) due.push(next);
    }
  };
  const isMissed = ({ contact, step, asked }: Told): boolean =>
    isUnreached(
      contact,
      [...input.deliveries, ...due].filter(
        (d) => d.contact === contact.id && d.step === step && d.asked === asked,
      ),
    );
  const unasked = told.filter(({ asked }) => !asked);
  const first = unasked.filter(({ step }) => step === 0);
  tell(first);
  // Where nobody of those has it, somebody else must.
  if (first.every(isMissed)) tell(unasked.filter(({ step }) => step > 0));
  const waits =
    isAsleep ||
    (isMadeUp(message) &&
      unasked.some(
        (one) => one.contact.ways.length > 0 && one.contact.optedOutAtMs === null && isMissed(one),
      ));
  const steps = Map.groupBy(
    told.filter(({ asked }) => asked),
    ({ step }) => step,
  );
  const inOrder = [...steps].sort(([a], [b]) => a - b);
  const refusals = answers.filter(({ said }) => said === 'cannot');
  const cannot = refusals.map(({ contact }) => contact);
  const outside = refusals.filter(({ contact: by }) => !inOrder.some(([, who]) => isAmong(by, who)));
  for (const [turn, [step, asked]] of inOrder.entries()) {
    tell(asked.filter(({ contact }) => !cannot.includes(contact.id)));
    const deadlineMs = settings.deadlinesMs[Math.min(turn, settings.deadlinesMs.length - 1)] ?? 0;
    if (!isPast({ ...input, answers, due, step, asked, outside, turn, deadlineMs })) {
      return { state: 'going-on', due, waits };
    }
  }
  const isInVain = message.needsAnswer && !isSilent;
  return { state: isInVain ? 'unanswered' : 'going-on', due, waits: waits || isSilent };
}

function endOf({ message, answers, audience, nowMs }: EscalationInput): EscalationState | null {
  if (nowMs > message.validUntilMs) return 'expired';
  if (isAnswered(answers)) return 'acknowledged';
  const { transitions } = message;
  const stale = transitions.length > 0 && !transitions.some((t) => isNewest(t, audience.newest));
  return stale ? 'superseded' : null;
}

const isAmong = (id: string, who: readonly Told[]): boolean => who.some(({ contact }) => contact.id === id);

interface StepInput extends EscalationInput {
  /** "Cannot" of those who are asked in no step. */
  readonly outside: readonly Answer[];
  readonly turn: number;
  readonly step: number;
  readonly asked: readonly Told[];
  readonly due: readonly Delivery[];
  readonly deadlineMs: number;
}

/** True where the next step's turn has come. */
function isPast(input: StepInput): boolean {
  const { deliveries, due, answers, outside, turn, nowMs, step, asked, deadlineMs } = input;
  if (answers.some(({ said, contact }) => said === 'cannot' && isAmong(contact, asked))) return true;
  const ofStep = (d: Delivery): boolean => d.asked && d.step === step;
  const began = deliveries.filter(ofStep).map((d) => d.dueAtMs);
  // It counts as of the step that was being asked: the next is called at once, and not all that come after it.
  const hadBegun = ({ receivedAtMs }: Answer): boolean => began.some((atMs) => atMs < receivedAtMs);
  if (outside.some((answer) => turn === 0 || hadBegun(answer))) return true;
  const rows = [...deliveries, ...due].filter(ofStep);
  const reachable = asked.some(({ contact }) => {
    if (contact.optedOutAtMs !== null) return false;
    const failed = rows.filter((d) => d.contact === contact.id && d.outcome === 'failed');
    return new Set(failed.map((d) => d.way)).size < Math.max(1, contact.ways.length);
  });
  if (!reachable) return true;
  return began.length > 0 && elapsedMs(Math.min(...began), nowMs) >= deadlineMs;
}
